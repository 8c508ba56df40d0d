//go:build lpsolve && cgo

package lpsolve

import (
	"fmt"
	"math"
	"runtime"

	"github.com/draffensperger/golp"

	"firstbolt/solver/child"
	"firstbolt/solver/program"
)

func init() { child.Register(Engine{}.Name(), Engine{InProcess: true}) }

// Available tells whether this build holds lp_solve.
func Available() bool { return true }

// run solves one linear program with at least one column, the objective times 2^-halved. It returns lp_solve's status
// and, when that is OPTIMAL, the values of the columns.
func run(l *program.Linear, halved int) (code int, values []float64, err error) {
	lp, err := build(l, halved)
	if err != nil {
		return 0, nil, err
	}
	// golp's finalizer must not free the model before the last use below.
	defer runtime.KeepAlive(lp)
	status := lp.Solve()
	if status == golp.OPTIMAL {
		values = lp.Variables()
	}
	return int(status), values, nil
}

// build writes the model in the order that golp demands: rows first, then the objective, which ends row-entry mode.
func build(l *program.Linear, halved int) (*golp.LP, error) {
	lp := golp.NewLP(0, len(l.Columns))
	lp.SetVerboseLevel(golp.CRITICAL)
	rows := l.Rows
	for c, column := range l.Columns {
		if !column.Binary {
			rows = append(rows[:len(rows):len(rows)], upperBound(c, column))
		}
	}
	for _, r := range rows {
		if err := addRow(lp, r, len(l.Columns)); err != nil {
			return nil, err
		}
	}
	objective := make([]float64, len(l.Columns))
	for _, e := range l.Objective.Entries {
		objective[e.Column] = math.Ldexp(float64(e.Coef), -halved)
	}
	lp.SetObjFn(objective)
	lp.SetMaximize()
	for c, column := range l.Columns {
		if column.Binary {
			lp.SetBinary(c, true)
		}
	}
	if lp.NumRows() != len(rows) || lp.NumCols() != len(l.Columns) {
		return nil, fmt.Errorf("lpsolve took %d rows and %d columns, want %d and %d", lp.NumRows(), lp.NumCols(), len(rows), len(l.Columns))
	}
	return lp, nil
}

// upperBound is a row, because golp cannot bound a column from above.
func upperBound(c int, column program.Column) program.LinearRow {
	return program.LinearRow{Name: "upper." + column.Name, Entries: []program.Entry{{Column: c, Coef: 1}}, Right: column.Upper}
}

// addRow refuses what golp would take silently and solve wrongly.
func addRow(lp *golp.LP, r program.LinearRow, columns int) error {
	if len(r.Entries) == 0 {
		return fmt.Errorf("lpsolve: row %q is empty", r.Name)
	}
	entries := make([]golp.Entry, len(r.Entries))
	for i, e := range r.Entries {
		if i > 0 && e.Column <= r.Entries[i-1].Column {
			return fmt.Errorf("lpsolve: row %q names column %d after column %d, want each once and in order", r.Name, e.Column, r.Entries[i-1].Column)
		}
		if e.Column < 0 || e.Column >= columns {
			return fmt.Errorf("lpsolve: row %q names column %d of %d: there is no column %d", r.Name, e.Column, columns, e.Column)
		}
		entries[i] = golp.Entry{Col: e.Column, Val: float64(e.Coef)}
	}
	kind := golp.LE
	if r.Equal {
		kind = golp.EQ
	}
	return lp.AddConstraintSparse(entries, kind, float64(r.Right))
}
