package datasets

import (
	"fmt"
	"slices"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// kind finds the kind that a cell names; nil where the cell is empty, false where there is none of that name.
func (r *reader) kind(c sheet.Cell) (*model.Kind, bool) {
	if c.Plain() == "" {
		return nil, true
	}
	if k := r.l.kindNamed(c.Text); k != nil {
		return k, true
	}
	if slot, is := sheet.Match(c.Text, slotNames(r.l.tables)); is {
		r.complain(c.Complain("unknown_kind", "a kind", fmt.Sprintf("%q is a slot: write it in the column slot", slot)))
		return nil, false
	}
	if k := r.l.kindBegun(c.Plain()); k != nil {
		r.complain(c.Warn("kind_begun", "the whole name of a kind", fmt.Sprintf("it is taken as %q", k.Name)))
		return k, true
	}
	r.complain(c.Complain("unknown_kind", "a known kind", r.l.kindHint(c.Plain())))
	return nil, false
}

// kindNamed finds a kind by its name or an alias; nil where there is none.
func (l *loader) kindNamed(name string) *model.Kind {
	if l.kinds == nil {
		l.kinds = map[string]*model.Kind{}
		for i := range l.tables.Kinds {
			k := &l.tables.Kinds[i]
			for _, n := range kindNames(k) {
				if _, taken := l.kinds[sheet.Key(n)]; !taken {
					l.kinds[sheet.Key(n)] = k
				}
			}
		}
	}
	return l.kinds[sheet.Key(name)]
}

func kindNames(k *model.Kind) []string { return append([]string{k.Name}, k.Aliases...) }

// kindBegun is the one kind with a name that begins with all the words of the text, of which there must be two at
// least; nil where no kind or more than one does.
func (l *loader) kindBegun(text string) *model.Kind {
	begun := nameWords(text)
	if len(begun) < 2 {
		return nil
	}
	var found *model.Kind
	for i := range l.tables.Kinds {
		k := &l.tables.Kinds[i]
		for _, name := range kindNames(k) {
			words := nameWords(name)
			if len(words) < len(begun) || !slices.Equal(words[:len(begun)], begun) || found == k {
				continue
			}
			if found != nil {
				return nil
			}
			found = k
		}
	}
	return found
}

// mostHints is how many kinds a complaint names.
const mostHints = 3

// kindHint names the kinds that were probably meant: those that share most words with the text, else the one spelled
// most like it.
func (l *loader) kindHint(text string) string {
	const all = "`firstbolt schema kinds` lists them"
	var names []string
	for i := range l.tables.Kinds {
		names = append(names, kindNames(&l.tables.Kinds[i])...)
	}
	if near := sheet.Nearest(text, names); near != "" && len(sharedKinds(l.tables.Kinds, text, len(nameWords(text)))) == 0 {
		return fmt.Sprintf("did you mean %q? %s", near, all)
	}
	for shared := len(nameWords(text)); shared > 0; shared-- {
		if near := sharedKinds(l.tables.Kinds, text, shared); len(near) > 0 {
			return "is it " + strings.Join(near, " or ") + "? " + all
		}
	}
	return all
}

// sharedKinds are the first few kinds, quoted, that share so many words with the text.
func sharedKinds(kinds []model.Kind, text string, shared int) []string {
	var near []string
	for i := range kinds {
		most := 0
		for _, name := range kindNames(&kinds[i]) {
			most = max(most, sharedWords(nameWords(text), nameWords(name)))
		}
		if most == shared && len(near) < mostHints {
			near = append(near, fmt.Sprintf("%q", kinds[i].Name))
		}
	}
	return near
}

func sharedWords(a, b []string) int {
	n := 0
	for _, word := range a {
		if slices.Contains(b, word) {
			n++
		}
	}
	return n
}

// smallWords say nothing about a part.
var smallWords = map[string]bool{"a": true, "and": true, "for": true, "the": true, "with": true}

// nameWords are the words of a kind's name without regard to case and diacritics; "9 speed" and "9-speed" are alike.
func nameWords(text string) []string {
	var words []string
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;+-/()", r) }) {
		if key := sheet.Key(w); key != "" && !smallWords[key] {
			words = append(words, key)
		}
	}
	return words
}

// sayWritten takes those facts of a kind as stated whose figures stand in the phrase as it was typed: a "rotor 180" is
// no guess about its size. The cell of the phrase is where they come from.
func (r *reader) sayWritten(facts, ofKind model.Facts, phrase sheet.Cell) {
	figures := strings.FieldsFunc(phrase.Text, func(c rune) bool { return c != '.' && (c < '0' || c > '9') })
	for name, v := range ofKind {
		if !facts[name].Known() && slices.Contains(figures, v.String()) {
			v.Origin = originOf(phrase, strings.HasSuffix(phrase.Text, "?"))
			facts[name] = v
		}
	}
}
