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
	Unread  bool              // something was piped to standard input, which only a terminal's answers are read from
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
	if r.Unread && len(s.Open) > 0 {
		s.Notes = append(s.Notes, "What was piped in was not read: questions are asked on a terminal only. Elsewhere flags answer them: "+strings.Join(answerFlags(), ", ")+".")
	}
	s.Notes = append(s.Notes,
		"Next: put the parts you could buy into parts.csv in place of the invented ones, one a row: part, kind, price. Any spreadsheet will do; save as CSV.",
		fmt.Sprintf("Then: firstbolt plan %s", r.Dir),
	)
	return s, nil
}

func answerFlags() []string {
	var flags []string
	for _, q := range Questions() {
		flags = append(flags, "--"+q.Flag)
	}
	return flags
}

// put asks one question until its answer can be used. A long list of choices is shown once, numbered, and its number is
// an answer.
func (r StartRequest) put(q datasets.Question, lines *bufio.Scanner) (string, error) {
	hint, list := "such as "+q.Example, ""
	switch n := len(q.Choices); {
	case n > 5:
		hint = fmt.Sprintf("its number, 1 to %d", n)
		for i, c := range q.Choices {
			list += fmt.Sprintf("  %2d  %s\n", i+1, c)
		}
	case n == 2:
		hint = strings.Join(q.Choices, " or ")
	}
	r.Ask(q.Text + "\n" + list)
	for {
		r.Ask("(" + hint + "): ")
		if !lines.Scan() {
			return "", wrong{"the questions were not answered to the end; nothing was written"}
		}
		text := q.Chosen(strings.TrimSpace(lines.Text()))
		fault := q.Check(text, r.Answers["currency"])
		if fault == nil {
			return text, nil
		}
		r.Ask(fault.Error() + "\n")
	}
}
