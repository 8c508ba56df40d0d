package ask

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/datasets"
)

// StartRequest asks for a new shed.
type StartRequest struct {
	Dir     string
	Answers map[string]string // by setting; the currency may be among them
	Input   io.Reader         // where further answers come from, when Ask is set
	Ask     func(text string) // shows a question; nil where nobody is there to answer
}

// Question is one of the nine that `start` asks, as a flag.
type Question struct{ Setting, Flag, Says string }

// Questions are the nine questions in the order in which they are asked.
func Questions() []Question {
	var list []Question
	for _, q := range datasets.Questions() {
		list = append(list, Question{Setting: q.Setting, Flag: strings.ReplaceAll(q.Setting, "_", "-"), Says: q.Says + ", such as " + q.Example})
	}
	return list
}

// StartWrites are the names of the files that `start` writes.
func StartWrites() []string { return datasets.StartNames() }

// Start writes the sheets of a new shed, from answers given or asked for, never over a file that is there. Its errors
// are wrong use.
func Start(r StartRequest) (answer.Answer, error) {
	s := &answer.Started{Head: answer.NewHead("start")}
	var lines *bufio.Scanner
	if r.Ask != nil {
		lines = bufio.NewScanner(r.Input)
		r.Ask("Nine questions; an empty answer leaves the cell empty.\n")
	}
	for _, q := range datasets.Questions() {
		if _, given := r.Answers[q.Setting]; !given && lines != nil {
			text, err := r.put(q, lines)
			if err != nil {
				return nil, err
			}
			r.Answers[q.Setting] = text
		}
		if r.Answers[q.Setting] == "" {
			s.Open = append(s.Open, q.Says)
		}
	}
	var err error
	if s.Files, err = datasets.Start(r.Dir, r.Answers); err != nil {
		return nil, wrong{err.Error()}
	}
	s.Notes = []string{
		"Next: put the parts you could buy into parts.csv in place of the invented ones, one a row: part, kind, price. Any spreadsheet will do; save as CSV.",
		fmt.Sprintf("Then: firstbolt plan %s", r.Dir),
	}
	return s, nil
}

// put asks one question until its answer can be used.
func (r StartRequest) put(q datasets.Question, lines *bufio.Scanner) (string, error) {
	r.Ask(q.Text + "\n")
	for _, c := range q.Choices {
		r.Ask("  " + c + "\n")
	}
	for {
		r.Ask(fmt.Sprintf("(such as %s): ", q.Example))
		if !lines.Scan() {
			return "", wrong{"the questions were not answered to the end; nothing was written"}
		}
		text := strings.TrimSpace(lines.Text())
		fault := q.Check(text, r.Answers["currency"])
		if fault == nil {
			return text, nil
		}
		r.Ask(fault.Error() + "\n")
	}
}
