package mps

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"

	"firstbolt/solver/program"
)

// Answer is what another solver says. Values holds what it gives for the columns, by name (and perhaps for rows), and
// counts only when the status is Optimal.
type Answer struct {
	Status program.Status
	Said   string // the solver's own word for the status
	Values map[string]float64
}

// Choice reads the chosen options from the answer's values. It is an error when a column of the program is missing or
// not whole.
func (a Answer) Choice(l *program.Linear) ([]int, error) {
	values := make([]float64, len(l.Columns))
	for i, c := range l.Columns {
		value, ok := a.Values[c.Name]
		if !ok {
			return nil, fmt.Errorf("the answer has no column %q", c.Name)
		}
		values[i] = value
	}
	return l.Choice(values)
}

// ReadGLPK reads what glpsol writes with -o for a problem with whole columns. A name longer than twelve letters has its
// numbers in the next line.
func ReadGLPK(r io.Reader) (Answer, error) {
	a := Answer{Status: program.Stopped, Values: map[string]float64{}}
	inColumns, name := false, ""
	err := eachLine(r, func(number int, fields []string) error {
		switch {
		case fields[0] == "Status:":
			a.said(strings.Join(fields[1:], " "), "INTEGER OPTIMAL", "INTEGER EMPTY")
		case len(fields) > 2 && fields[0] == "No." && fields[1] == "Column":
			inColumns = true
		case fields[0] == "Integer" || fields[0] == "Karush-Kuhn-Tucker":
			inColumns = false
		case !inColumns || strings.HasPrefix(fields[0], "------"):
		case name != "":
			long := name
			name = ""
			return a.value(number, long, without(fields, "*"))
		case len(fields) == 2:
			name = fields[1]
		case len(fields) > 2:
			return a.value(number, fields[1], without(fields[2:], "*"))
		}
		return nil
	})
	return a.complete("glpsol", err)
}

// ReadCBC reads CBC's solution file: a line with the status, then number, name, value and reduced cost. With
// "printingOptions all" every column is there. A value beyond its bound is marked **.
func ReadCBC(r io.Reader) (Answer, error) {
	a := Answer{Status: program.Stopped, Values: map[string]float64{}}
	err := eachLine(r, func(number int, fields []string) error {
		if a.Said == "" {
			said, _, _ := strings.Cut(strings.Join(fields, " "), " - ")
			a.said(said, "Optimal", "Infeasible", "Integer infeasible")
			return nil
		}
		fields = without(fields, "**")
		if len(fields) < 3 {
			return fmt.Errorf("line %d: %q, want number, name and value", number, strings.Join(fields, " "))
		}
		return a.value(number, fields[1], fields[2:])
	})
	return a.complete("cbc", err)
}

// ReadLPSolve reads what lp_solve prints with -S3 or -S4.
func ReadLPSolve(r io.Reader) (Answer, error) {
	a := Answer{Status: program.Stopped, Values: map[string]float64{}}
	inColumns := false
	err := eachLine(r, func(number int, fields []string) error {
		line := strings.Join(fields, " ")
		switch {
		case strings.HasPrefix(line, "Actual values of the variables"):
			a.said("OPTIMAL", "OPTIMAL")
			inColumns = true
		case strings.HasPrefix(line, "Actual values of the constraints"):
			inColumns = false
		case inColumns && len(fields) == 2:
			return a.value(number, fields[0], fields[1:])
		case strings.HasPrefix(line, "This problem is infeasible"):
			a.said("INFEASIBLE", "OPTIMAL", "INFEASIBLE")
		case a.Said == "" && !strings.HasPrefix(line, "Value of objective function"):
			a.Said = line
		}
		return nil
	})
	return a.complete("lp_solve", err)
}

// said notes the solver's word and what it means: one word for optimal, any number for infeasible, else Stopped.
func (a *Answer) said(word, optimal string, infeasible ...string) {
	a.Said, a.Status = word, program.Stopped
	if word == optimal {
		a.Status = program.Optimal
	}
	for _, other := range infeasible {
		if word == other {
			a.Status = program.Infeasible
		}
	}
}

func (a *Answer) value(line int, name string, fields []string) error {
	if len(fields) == 0 {
		return fmt.Errorf("line %d: %q has no value", line, name)
	}
	value, err := strconv.ParseFloat(fields[0], 64)
	if err != nil {
		return fmt.Errorf("line %d: the value of %q is %q, want a number", line, name, fields[0])
	}
	a.Values[name] = value
	return nil
}

func (a *Answer) complete(solver string, err error) (Answer, error) {
	if err != nil {
		return Answer{}, fmt.Errorf("answer of %s: %w", solver, err)
	}
	if a.Said == "" {
		return Answer{}, fmt.Errorf("answer of %s: there is no status in it", solver)
	}
	return *a, nil
}

func eachLine(r io.Reader, visit func(number int, fields []string) error) error {
	lines := bufio.NewScanner(r)
	for number := 1; lines.Scan(); number++ {
		if fields := strings.Fields(lines.Text()); len(fields) > 0 {
			if err := visit(number, fields); err != nil {
				return err
			}
		}
	}
	return lines.Err()
}

// without leaves out a leading mark.
func without(fields []string, mark string) []string {
	if len(fields) > 0 && fields[0] == mark {
		return fields[1:]
	}
	return fields
}
