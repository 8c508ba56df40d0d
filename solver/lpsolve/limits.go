package lpsolve

import (
	"fmt"

	"firstbolt/solver/program"
)

// largestRow is the largest size of a row that is solved: half of what was first seen overrun by one (10,900,000).
// largestObjective is below the size at which whole items were lost from the answer (30,000,000).
const (
	largestRow       = 5_000_000
	largestObjective = 20_000_000
)

// TooLargeError says that numbers of the program are too large for lp_solve's tolerance: it would be no confirmation.
type TooLargeError struct {
	Row  string // or "objective", "cash", "benefit"
	Size int64
	Most int64
}

func (e *TooLargeError) Error() string {
	return fmt.Sprintf("lpsolve is exact in %q up to %d only, and it comes to %d: it does not confirm this program", e.Row, e.Most, e.Size)
}

// tooLarge finds the first row, or the objective of a stage, that lp_solve cannot be trusted with.
func tooLarge(l *program.Linear) error {
	for _, r := range l.Rows {
		if size := rowSize(l, r); size > largestRow {
			return &TooLargeError{r.Name, size, largestRow}
		}
	}
	for _, e := range []struct {
		name string
		program.Expression
	}{{"objective", l.Objective}, {"cash", l.Cash}, {"benefit", l.Benefit}} {
		low, high := l.Range(e.Entries)
		if size := high - low; size > largestObjective {
			return &TooLargeError{e.name, size, largestObjective}
		}
	}
	return nil
}

// rowSize is the largest number that either side of the row reaches while the row just holds (its positive entries
// against its negative ones and the right side), or its largest coefficient.
func rowSize(l *program.Linear, r program.LinearRow) int64 {
	var plus, minus []program.Entry
	size := int64(0)
	for _, e := range r.Entries {
		size = max(size, magnitude(e.Coef))
		if e.Coef > 0 {
			plus = append(plus, e)
		} else {
			minus = append(minus, e)
		}
	}
	_, most := l.Range(plus)
	least, _ := l.Range(minus)
	return max(size, min(most, r.Right-least))
}
