package mps

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"firstbolt/solver/program"
)

// objectiveRow is the name of the objective, which no row or column of a Linear has.
const objectiveRow = "objective"

// termsInLine keeps LP text narrow: GLPK and CBC limit the length of a line.
const termsInLine = 4

// WriteMPS writes free MPS. MPS minimises, so the objective has the other sign.
func WriteMPS(w io.Writer, l *program.Linear) error {
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, "* %s\n* minimise minus the objective; its constant %d is left out\n", oneLine(l.Name), l.Objective.Constant)
	fmt.Fprintf(out, "NAME firstbolt FREE\nROWS\n N %s\n", objectiveRow)
	for _, r := range l.Rows {
		fmt.Fprintf(out, " %s %s\n", map[bool]string{true: "E", false: "L"}[r.Equal], r.Name)
	}
	writeColumns(out, l)
	fmt.Fprintf(out, "RHS\n")
	for _, r := range l.Rows {
		if r.Right != 0 {
			fmt.Fprintf(out, " RHS %s %d\n", r.Name, r.Right)
		}
	}
	fmt.Fprintf(out, "BOUNDS\n")
	for _, c := range l.Columns {
		fmt.Fprintf(out, " UP BND %s %d\n", c.Name, c.Upper)
	}
	fmt.Fprintf(out, "ENDATA\n")
	return out.Flush()
}

func writeColumns(out io.Writer, l *program.Linear) {
	inColumn := make([][]string, len(l.Columns))
	for _, e := range l.Objective.Entries {
		inColumn[e.Column] = append(inColumn[e.Column], fmt.Sprintf("%s %d", objectiveRow, -e.Coef))
	}
	for _, r := range l.Rows {
		for _, e := range r.Entries {
			inColumn[e.Column] = append(inColumn[e.Column], fmt.Sprintf("%s %d", r.Name, e.Coef))
		}
	}
	fmt.Fprintf(out, "COLUMNS\n")
	whole := false
	marker := func(c program.Column) {
		if c.Binary != whole {
			whole = c.Binary
			fmt.Fprintf(out, " MARKER 'MARKER' '%s'\n", map[bool]string{true: "INTORG", false: "INTEND"}[whole])
		}
	}
	for i, c := range l.Columns {
		marker(c)
		for _, entry := range inColumn[i] {
			fmt.Fprintf(out, " %s %s\n", c.Name, entry)
		}
	}
	marker(program.Column{})
}

// WriteLP writes LP text in the CPLEX manner. A program without slots has no columns and cannot be written so.
func WriteLP(w io.Writer, l *program.Linear) error {
	if len(l.Columns) == 0 {
		return fmt.Errorf("the program %q has no columns, and LP text needs one", l.Name)
	}
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, "\\ %s\n\\ the objective's constant %d is left out\nMaximize\n %s:", oneLine(l.Name), l.Objective.Constant, objectiveRow)
	objective := l.Objective.Entries
	if len(objective) == 0 {
		objective = []program.Entry{{Column: 0, Coef: 0}}
	}
	writeTerms(out, l, objective)
	fmt.Fprintf(out, "\nSubject To\n")
	for _, r := range l.Rows {
		fmt.Fprintf(out, " %s:", r.Name)
		writeTerms(out, l, r.Entries)
		fmt.Fprintf(out, " %s %d\n", map[bool]string{true: "=", false: "<="}[r.Equal], r.Right)
	}
	var binaries, others []program.Column
	for _, c := range l.Columns {
		if c.Binary {
			binaries = append(binaries, c)
		} else {
			others = append(others, c)
		}
	}
	fmt.Fprintf(out, "Bounds\n")
	for _, c := range others {
		fmt.Fprintf(out, " 0 <= %s <= %d\n", c.Name, c.Upper)
	}
	fmt.Fprintf(out, "Binary\n")
	for _, c := range binaries {
		fmt.Fprintf(out, " %s\n", c.Name)
	}
	fmt.Fprintf(out, "End\n")
	return out.Flush()
}

func writeTerms(out io.Writer, l *program.Linear, entries []program.Entry) {
	for i, e := range entries {
		if i > 0 && i%termsInLine == 0 {
			fmt.Fprintf(out, "\n  ")
		}
		sign, size := "+", e.Coef
		if e.Coef < 0 {
			sign, size = "-", -e.Coef
		}
		fmt.Fprintf(out, " %s %d %s", sign, size, l.Columns[e.Column].Name)
	}
}

func oneLine(text string) string {
	return strings.Join(strings.Fields(text), " ")
}
