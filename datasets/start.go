package datasets

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"

	"firstbolt/datasets/sheet"
)

// Question is one of the nine that make a shed. Its answer is kept under Setting.
type Question struct {
	Setting string // "budget"
	Sheet   string // the sheet that the answer goes to, "rider"
	Text    string // the question as asked
	Says    string // what is asked, in a few words, for the help of a flag
	Choices []string
	Example string
}

// startTables are the embedded tables, read once for all questions; nothing here changes them.
var startTables = sync.OnceValues(Embedded)

// Questions are the nine questions of `start`, in the order in which they are asked.
func Questions() []Question {
	var likes []string
	if tables, err := startTables(); err == nil {
		likes = likeNames(tables)
	}
	return []Question{
		{Setting: "like", Sheet: "bikes", Text: "Which of these is your bike most like?", Says: "typical bike that yours resembles", Choices: likes, Example: "store hardtail cable disc 3x7"},
		{Setting: "riding", Sheet: "rider", Text: "Where do you ride? 1 " + strings.Join(numbered(ridingWords), ", "), Says: "where you ride, 1 to 5", Choices: []string{"1", "2", "3", "4", "5"}, Example: "3"},
		{Setting: "rider_kg", Sheet: "rider", Text: "How heavy are you with your clothes, in kg?", Says: "your mass in kg", Example: "85"},
		{Setting: "budget", Sheet: "rider", Text: "How much can you spend now?", Says: "the most to spend now", Example: "120"},
		{Setting: "per_month", Sheet: "rider", Text: "How much can you put aside each month later?", Says: "what can be spent each month later", Example: "30"},
		{Setting: "work", Sheet: "rider", Text: "Who does the work: you yourself, or a shop?", Says: "who does the bench work", Choices: []string{"self", "shop"}, Example: "self"},
		{Setting: "ranking", Sheet: "rider", Text: "What do you care about, most important first?", Says: "what you care about, most important first", Example: "braking > grip > chain stays on"},
		{Setting: "sells_for", Sheet: "bikes", Text: "What would your bike bring if you sold it as it is?", Says: "what your bike would bring as it is", Example: "60"},
		{Setting: "size_ok", Sheet: "bikes", Text: "Does your bike fit you in size?", Says: "whether your bike fits you in size", Choices: []string{"yes", "no"}, Example: "yes"},
	}
}

// numbered is "roads", "2 gravel ...", "3 rough ...": the first gets its number from the sentence.
func numbered(words []string) []string {
	all := []string{words[0]}
	for i, w := range words[1:] {
		all = append(all, strconv.Itoa(i+2)+" "+w)
	}
	return all
}

// Check says what is wrong with an answer to the question; nil where it can be used. An empty answer leaves the cell empty.
func (q Question) Check(answer, currency string) error {
	tables, err := startTables()
	if err != nil {
		return err
	}
	l := &loader{tables: tables, shed: newShed("", tables)}
	l.currency, _ = sheet.CurrencyNamed("EUR")
	r := l.flagReader(sheet.Undecided)
	if currency != "" {
		r.setCurrency(sheet.Cell{Sheet: "--currency", Name: "currency", Text: currency})
	}
	c := sheet.Cell{Name: q.Setting, Text: answer}
	switch {
	case c.Plain() == "":
	case q.Setting == "like":
		r.like(c)
	case q.Setting == "sells_for":
		r.money(c)
	case q.Setting == "size_ok":
		r.yesNo(c)
	case !r.numbers(&l.shed.Rider, q.Setting, c):
		r.texts(&l.shed.Rider, q.Setting, c)
	}
	if len(r.Complaints) == 0 {
		return nil
	}
	return errors.New(strings.TrimPrefix(r.Complaints[0].String(), ": "))
}

// Chosen is the answer that was typed, or the typical bike whose number in Choices it is.
func (q Question) Chosen(answer string) string {
	if n, err := strconv.Atoi(answer); err == nil && q.Setting == "like" && n >= 1 && n <= len(q.Choices) {
		return q.Choices[n-1]
	}
	return answer
}

// examplePart is a row of the parts sheet that `start` writes: invented, and meant to be replaced. Its facts are those
// that danger rules ask of such a part, so that no row is set aside for a cell that it lacks.
type examplePart struct {
	name, kind string
	price      int // whole units of a currency with cents
	facts      string
}

var exampleParts = []examplePart{
	{"example front tyre", "knobbly tyre", 22, "width_mm=53"},
	{"example soft tyre", "soft knobbly tyre", 33, "width_mm=53"},
	{"example front brake", "hydraulic disc brake complete, front", 48, "joined=no"},
	{"example rear brake", "hydraulic disc brake complete, rear", 48, "joined=no"},
	{"example gear cables", "gear cables and housing", 14, ""},
	{"example grips", "lock-on grips", 10, "grip_mm=130"},
	{"example pedals", "flat pedals, pinned", 20, "pedal_thread=9/16"},
	{"example bar and stem", "short stem + wide bar", 38, "stem_kind=threadless; steerer_clamp_mm=28.6; clamp_height_mm=40; bar_clamp_mm=31.8"},
	{"example saddle", "saddle", 22, "rail=7 round"},
	{"example single ring", "crankset with narrow-wide ring 32", 55, "pedal_thread=9/16"},
}

// StartFiles are the files of a shed made from the answers, by name. An answer that is not there leaves its cell empty;
// the currency may be among the answers.
func StartFiles(answers map[string]string) (map[string]string, error) {
	for _, q := range Questions() {
		if err := q.Check(answers[q.Setting], answers["currency"]); err != nil {
			return nil, err
		}
	}
	files := map[string]string{}
	for name, rows := range map[string][][]string{"rider.csv": riderRows(answers), "bikes.csv": bikeRows(answers), "parts.csv": partRows(answers)} {
		var text strings.Builder
		w := sheet.NewWriter(&text, sheet.Dialect{})
		for _, row := range rows {
			for _, cell := range row {
				w.Text(cell)
			}
			if err := w.Row(); err != nil {
				return nil, err
			}
		}
		if err := w.Close(); err != nil {
			return nil, err
		}
		files[name] = text.String()
	}
	return files, nil
}

func riderRows(answers map[string]string) [][]string {
	rows := [][]string{{"setting", "value"}}
	if code := answers["currency"]; code != "" {
		rows = append(rows, []string{"currency", strings.ToUpper(code)})
	}
	for _, q := range Questions() {
		if q.Sheet == "rider" {
			rows = append(rows, []string{q.Setting, answers[q.Setting]})
		}
	}
	return rows
}

func bikeRows(answers map[string]string) [][]string {
	return [][]string{
		{"bike", "owned", "like", "price", "sells_for", "size_ok"},
		{defaultBike, "yes", answers["like"], "", answers["sells_for"], answers["size_ok"]},
	}
}

func partRows(answers map[string]string) [][]string {
	rows := [][]string{
		{"part", "kind", "price", "facts"},
		{"# These rows are invented: write the parts you could buy in their place.", "", "", ""},
	}
	for _, p := range exampleParts {
		price := fmt.Sprintf("%d.00", p.price)
		if c, ok := sheet.CurrencyNamed(answers["currency"]); ok && c.Digits == 0 {
			price = strconv.Itoa(100 * p.price)
		}
		rows = append(rows, []string{p.name, p.kind, price, p.facts})
	}
	return rows
}

// StartNames are the files that Start writes, in the order in which a rider fills them in.
func StartNames() []string { return []string{"rider.csv", "bikes.csv", "parts.csv"} }

// Start writes a shed made from the answers into a folder, which it makes if need be. It never writes over an existing
// file: where one of the names is taken nothing is written at all.
func Start(folder string, answers map[string]string) (written []string, err error) {
	files, err := StartFiles(answers)
	if err != nil {
		return nil, err
	}
	for _, name := range StartNames() {
		if _, err := os.Lstat(filepath.Join(folder, name)); !errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("%s is there already; start never writes over a file: name another folder", filepath.Join(folder, name))
		}
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return nil, err
	}
	for _, name := range StartNames() {
		path := filepath.Join(folder, name)
		if err := writeNew(path, files[name]); err != nil {
			for _, w := range written {
				os.Remove(w)
			}
			return nil, err
		}
		written = append(written, path)
	}
	return written, nil
}

// writeNew writes a file that must not be there yet.
func writeNew(path, text string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if _, err := f.WriteString(text); err != nil {
		f.Close()
		os.Remove(path)
		return err
	}
	return f.Close()
}
