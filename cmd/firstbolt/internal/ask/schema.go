package ask

import (
	"fmt"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/datasets"
	"firstbolt/datasets/sheet"
)

// Schema says which columns the sheets have: one of them, or all of a shed, or with the tables also those that a
// mechanic may add to. It is made from the same description as the reader. Of one table it also lists what that knows by
// name: kinds, slots, facts, likes, criteria, profiles.
func Schema(name string, tables bool) (answer.Answer, error) {
	sheets := datasets.Sheets()
	if tables {
		sheets = append(sheets, datasets.OverrideSheets()...)
	}
	if name != "" {
		t, known := datasets.TableNamed(sheet.Key(name))
		if !known {
			var names []string
			for _, t := range append(datasets.Sheets(), datasets.OverrideSheets()...) {
				names = append(names, t.Name)
			}
			return nil, wrong{fmt.Sprintf("there is no sheet %q; %s", name, sheet.DidYouMean(name, names, "they are "+quoted(names)))}
		}
		sheets = []sheet.Table{t}
	}
	s := &answer.Schemas{Head: answer.NewHead("schema"), Profile: answer.Profile, Name: "firstbolt-shed"}
	for _, t := range sheets {
		s.Resources = append(s.Resources, resource(t))
		if t.Name == "rider" {
			s.Settings = fields(datasets.RiderSettings())
		}
	}
	if name == "" {
		return s, nil
	}
	known, err := datasets.Entries(sheets[0].Name)
	if err != nil {
		return nil, err
	}
	for _, e := range known {
		s.Known = append(s.Known, answer.Named{Name: e.Name, Says: e.Says})
	}
	return s, nil
}

func resource(t sheet.Table) answer.Resource {
	return answer.Resource{
		Name: t.Name, Path: t.Name + ".csv", Title: t.Row,
		Schema: answer.TableSchema{Fields: fields(t.Columns), FieldsMatch: "partial", MissingValues: []string{""}},
	}
}

func fields(columns []sheet.Column) []answer.Field {
	var list []answer.Field
	for _, c := range columns {
		list = append(list, field(c))
	}
	return list
}

func field(c sheet.Column) answer.Field {
	f := answer.Field{
		Name: c.Name, Title: c.Title, Type: "string", Description: c.Description, Example: c.Example, Unit: c.Unit, Aliases: c.Aliases,
		Constraints: answer.Constraints{Required: c.Required},
	}
	withUnits := false // a sign or unit may stand in the cell
	switch c.Type {
	case sheet.Number, sheet.Money, sheet.Mass, sheet.Length:
		f.Type, f.BareNumber = "number", &withUnits
	case sheet.Whole:
		f.Type = "integer"
	case sheet.YesNo:
		f.Type, f.TrueValues, f.FalseValues = "boolean", []string{"yes"}, []string{"no"}
	case sheet.Choice:
		f.Constraints.Enum = c.Allowed
	}
	return f
}
