package ask

import "firstbolt/cmd/firstbolt/internal/answer"

// Check reads the sheets and works nothing out.
func Check(r Request) (answer.Answer, error) {
	l, err := load(r)
	if err != nil {
		return nil, err
	}
	if l.failure != nil {
		return l.failure, nil
	}
	c := &answer.Check{Head: head(r.Command, l.shed), Parts: len(l.shed.Parts)}
	for i := range l.shed.Bikes {
		c.Bikes = append(c.Bikes, l.shed.Bikes[i].Name)
	}
	c.Warnings = l.warnings
	return c, nil
}
