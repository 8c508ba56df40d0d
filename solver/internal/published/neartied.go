package published

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"firstbolt/solver/program"
)

// NearTied gives eight random models of 13 binaries (groups of at most one, a budget, exclusions, implications) whose
// values almost tie, as lp_solve 5.5.2.5 wrote them, in the form it was given: it called a worse choice optimal for each
// of them. The optimal values are from full enumeration. The programs have a slot for every binary; the first row is
// the budget.
func NearTied() ([]Case, error) {
	entries, err := files.ReadDir("testdata")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, entry := range entries {
		id, isModel := strings.CutSuffix(entry.Name(), ".lp")
		if !isModel {
			continue
		}
		text, err := files.ReadFile("testdata/" + entry.Name())
		if err != nil {
			return nil, err
		}
		best, err := files.ReadFile("testdata/" + id + ".best")
		if err != nil {
			return nil, err
		}
		c := Case{ID: id, Source: "random models that lp_solve 5.5.2.5 got wrong; optimum by full enumeration"}
		if c.Value, err = strconv.ParseInt(string(bytes.TrimSpace(best)), 10, 64); err != nil {
			return nil, fmt.Errorf("%s.best: %w", id, err)
		}
		if c.Program, err = fromLPText(id, string(text)); err != nil {
			return nil, fmt.Errorf("%s: %w", entry.Name(), err)
		}
		cases = append(cases, c)
	}
	return cases, nil
}

var (
	comment = regexp.MustCompile(`(?s)/\*.*?\*/`)
	term    = regexp.MustCompile(`([+-])(\d*) ?C(\d+)`)
)

// fromLPText reads the small part of lp_solve's LP format that these models use: "max:" and rows of "<=" over binaries
// C1, C2 ...; bounds of single columns by 1 and the list of whole columns say that they are binaries.
func fromLPText(name, text string) (*program.Program, error) {
	p := most(name)
	budgetSeen := false
	for statement := range strings.SplitSeq(comment.ReplaceAllString(text, ""), ";") {
		statement = strings.TrimSpace(statement)
		objective, isObjective := strings.CutPrefix(statement, "max:")
		left, right, isRow := strings.Cut(statement, "<=")
		switch {
		case isObjective:
			for i, coef := range terms(objective) {
				if coef.Slot != i {
					return nil, fmt.Errorf("the objective skips C%d", i+1)
				}
				p.Slots = append(p.Slots, program.Slot{
					Name: fmt.Sprint("C", i+1), Options: []program.Option{none(), option("chosen", 0, coef.Coef)},
				})
			}
		case isRow && !strings.HasPrefix(statement, "C"):
			atMost, err := strconv.ParseInt(strings.TrimSpace(right), 10, 64)
			if err != nil {
				return nil, fmt.Errorf("row %q: %w", statement, err)
			}
			row := program.Row{Name: fmt.Sprint("row ", len(p.Rows)+1), Terms: terms(left), AtMost: atMost}
			if budgetSeen {
				p.Rows = append(p.Rows, row)
				continue
			}
			budgetSeen, p.Budget = true, atMost
			for _, t := range row.Terms {
				p.Slots[t.Slot].Options[1].Cash = t.Coef
			}
		}
	}
	return p, nil
}

func terms(text string) []program.Term {
	var list []program.Term
	for _, found := range term.FindAllStringSubmatch(text, -1) {
		coef, column := int64(1), 0
		if found[2] != "" {
			coef, _ = strconv.ParseInt(found[2], 10, 64)
		}
		if found[1] == "-" {
			coef = -coef
		}
		column, _ = strconv.Atoi(found[3])
		list = append(list, program.Term{Slot: column - 1, Option: 1, Coef: coef})
	}
	slices.SortFunc(list, func(a, b program.Term) int { return a.Slot - b.Slot })
	return list
}
