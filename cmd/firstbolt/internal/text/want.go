package text

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// want says what a part must have, fact by fact, and because of which cell.
func (p *page) want(a *answer.Want) {
	p.demo(a.Shed)
	p.para("", fmt.Sprintf("LOOK FOR: %s (%s) on %s, with all else as it stands", a.Slot, a.Says, a.Bike))
	if a.Now != nil {
		p.para("", fmt.Sprintf("Now there: %s.", *a.Now))
	}
	needs := slices.DeleteFunc(slices.Clone(a.Needs), empty)
	if len(needs) == 0 {
		p.line("")
		p.para("", "Nothing on the bike limits what goes there.")
	} else {
		p.section("IT MUST HAVE")
	}
	for _, n := range needs {
		p.need(n)
	}
	p.toMeasure(a.Measure)
	p.footnotes(a.Warnings, a.Notes)
	p.cautions(a.Cautions)
}

// empty tells whether a need says nothing: any value does, or a mere presence that nothing speaks against.
func empty(n answer.Need) bool {
	return n.Does.Any && (n.Verdict == nil || *n.Verdict == "fits")
}

func (p *page) need(n answer.Need) {
	p.para("  - ", needText(n))
	for _, w := range n.Ways {
		p.para("      or ", wayText(n, w))
	}
	for _, c := range n.Rules {
		p.cause(c)
	}
	if len(n.Traps) > 0 {
		p.para("      trap: ", stop(strings.Join(n.Traps, "; ")))
	}
}

// needText says what the fact must be.
func needText(n answer.Need) string {
	var given []string
	for _, c := range n.If {
		given = append(given, answer.FactName(c.Fact)+" is "+c.Value)
	}
	text := ""
	if len(given) > 0 {
		text = "where " + list(given) + ": "
	}
	switch {
	case n.Fact != nil:
		return text + answer.FactName(*n.Fact) + ": " + valuesText(*n.Fact, n.Does)
	case len(n.Sum) > 0:
		return text + sumText(n.Sum) + ": " + valuesText("", n.Does)
	default:
		return text + "anything there " + map[string]string{
			"fits_with": "needs something else as well", "both_sides": "is a matter of opinion", "measure_first": "waits for a measurement", "does_not_fit": "does not fit",
		}[*n.Verdict]
	}
}

// sumText is a sum of facts in words, with what is taken away behind what it is taken from.
func sumText(terms []answer.NeedTerm) string {
	var sum, off []string
	for _, t := range terms {
		name := answer.FactName(t.Fact)
		factor, less := strings.CutPrefix(t.Factor, "-")
		if factor != "1" {
			name = factor + " times " + name
		}
		if less {
			off = append(off, "less "+name)
		} else {
			sum = append(sum, name)
		}
	}
	return strings.Join(append([]string{strings.Join(sum, " and ")}, off...), " ")
}

// valuesText says which values do.
func valuesText(fact string, v answer.NeedValues) string {
	text := ""
	switch {
	case v.None:
		return "nothing is sure to do as the bike stands"
	case v.Any:
		return "anything"
	case len(v.Choices) > 0:
		return orList(v.Choices)
	case v.Low == nil && v.High == nil:
		text = "anything"
	case v.Low == nil:
		text = highest(fact, *v.High)
	case v.High == nil:
		text = lowest(fact, *v.Low)
	case *v.Low == *v.High:
		text = answer.FactAmount(fact, v.Low)
	case beside(*v.Low, "1") != nil || beside(*v.High, "9") != nil:
		text = lowest(fact, *v.Low) + ", " + highest(fact, *v.High)
	default:
		text = *v.Low + " to " + answer.FactAmount(fact, v.High)
	}
	if len(v.Except) > 0 {
		text += " but not " + orList(v.Except)
	}
	return text
}

// lowest says from where on values do.
func lowest(fact, value string) string {
	if limit := beside(value, "1"); limit != nil {
		return "over " + answer.FactAmount(fact, limit)
	}
	rounded := hundredth(value, math.Ceil)
	return "at least " + answer.FactAmount(fact, &rounded)
}

// highest says up to where values do.
func highest(fact, value string) string {
	if limit := beside(value, "9"); limit != nil {
		return "under " + answer.FactAmount(fact, limit)
	}
	rounded := hundredth(value, math.Floor)
	return "at most " + answer.FactAmount(fact, &rounded)
}

// hundredth is a limit to a hundredth, on the safe side.
func hundredth(value string, round func(float64) float64) string {
	_, part, _ := strings.Cut(value, ".")
	number, err := strconv.ParseFloat(value, 64)
	if len(part) < 3 || err != nil {
		return value
	}
	return strconv.FormatFloat(round(number*100)/100, 'f', -1, 64)
}

// beside is the limit that a value lies one thousandth beside, which people read more easily: 27.549 is under 27.55.
func beside(value, last string) *string {
	whole, part, _ := strings.Cut(value, ".")
	if len(part) != 3 || !strings.HasSuffix(part, last) {
		return nil
	}
	milli, err := strconv.ParseInt(whole+part, 10, 64)
	if err != nil {
		return nil
	}
	if milli--; last == "9" {
		milli += 2
	}
	limit := strconv.FormatFloat(float64(milli)/1000, 'f', -1, 64)
	return &limit
}

// orList joins names as one says them: "a, b or c".
func orList(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}

// wayText says what further values do, and what they take.
func wayText(n answer.Need, w answer.NeedWay) string {
	fact := ""
	if n.Fact != nil {
		fact = *n.Fact
	}
	var takes []string
	if w.AsNow {
		takes = append(takes, "as no worse than what is there now")
	}
	if len(w.Measure) > 0 {
		takes = append(takes, "after measuring "+list(refs(w.Measure)))
	}
	for _, piece := range w.Pieces {
		takes = append(takes, pieceText(piece))
	}
	for _, slot := range w.Off {
		takes = append(takes, "once the "+slot+" is taken off")
	}
	if len(w.Allow) > 0 {
		takes = append(takes, "where you take one side: --allow "+strings.Join(w.Allow, " --allow "))
	}
	return valuesText(fact, w.Values) + ", " + strings.Join(takes, ", ")
}

// refs are "slot.fact" in words.
func refs(of []string) []string {
	var says []string
	for _, ref := range of {
		slot, fact, _ := strings.Cut(ref, ".")
		says = append(says, answer.FactName(fact)+" of the "+slot)
	}
	return says
}

func pieceText(piece answer.NeedPiece) string {
	text := "with a " + piece.Slot
	switch {
	case piece.From != nil && piece.To != nil:
		return text + " from " + *piece.From + " to " + *piece.To
	case piece.From != nil:
		return text + " from " + *piece.From + " to the part's own"
	case piece.To != nil:
		return text + " from the part's own to " + *piece.To
	default:
		return text + " that joins the two"
	}
}

// cause says why, rule by rule.
func (p *page) cause(c answer.NeedCause) {
	var against []string
	for _, t := range c.Against {
		against = append(against, term(t))
	}
	text := upperFirst(strings.Join(against, "; "))
	if c.Sentence != nil {
		text = *c.Sentence + " " + text
	}
	if c.MendedBy != nil {
		text = strings.TrimSpace(strings.TrimSuffix(text, ".")+". ") + " " + *c.MendedBy
	}
	p.para("      why: ", strings.TrimPrefix(fmt.Sprintf("%s (%s: %s; source: %s)", text, c.Rule, severities[c.Severity], c.Source), ". "))
}
