package ask

import (
	"context"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/solver"
	"firstbolt/solver/mps"
)

// Program answers `program`: the integer program of the kept bike as text for other solvers. Its errors are those of
// Plan.
func Program(ctx context.Context, r Request) (answer.Answer, error) {
	l, q, err := pose(r)
	if err != nil {
		return nil, err
	}
	if l.failure != nil {
		return l.failure, nil
	}
	p, err := solver.Program(ctx, q)
	if err != nil {
		return failed(ctx, r, err), nil
	}
	linear := p.Linear()
	write := mps.WriteMPS
	if r.Form == "lp" {
		write = mps.WriteLP
	}
	var text strings.Builder
	if err := write(&text, linear); err != nil {
		return failed(ctx, r, err), nil
	}
	ans := &answer.Program{
		Head: head(r.Command, l.shed), Bike: p.Name, Budget: &answer.Money{Minor: int64(q.Budget), Currency: l.shed.Currency.Code},
		Columns: len(linear.Columns), Rows: len(linear.Rows), Form: r.Form, Text: text.String(),
	}
	ans.Warnings = l.warnings
	return ans, nil
}
