package ask

import (
	"fmt"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// chosenBike is the bike that a request is about: the one of --bike, else the rider's own, else the only one there is.
func chosenBike(name string, shed *model.Shed) (*model.Bike, error) {
	named, err := bikeNamed(name, shed)
	if err != nil {
		return nil, err
	}
	if own := shed.OwnBike(); named == "" && own != nil {
		return own, nil
	}
	var rivals []string
	var found *model.Bike
	for i := range shed.Bikes {
		b := &shed.Bikes[i]
		if named == "" && b.Ownership == model.Rival || named != "" && b.Name == named {
			rivals, found = append(rivals, b.Name), b
		}
	}
	if len(rivals) != 1 {
		return nil, wrong{fmt.Sprintf("none of the bikes is your own, so say which one is meant: --bike NAME; they are %s", quoted(rivals))}
	}
	return found, nil
}

// partNamed is the part of the sheets that a name or an id means.
func partNamed(name string, shed *model.Shed) (*model.Part, error) {
	var known []string
	var found []*model.Part
	for i := range shed.Parts {
		p := &shed.Parts[i]
		if sheet.Key(p.ID) == sheet.Key(name) {
			return p, nil
		}
		if sheet.Key(p.Name) == sheet.Key(name) {
			found = append(found, p)
		}
		known = append(known, p.Name)
	}
	for i := range shed.Parts {
		if shed.Parts[i].ID != shed.Parts[i].Name {
			known = append(known, shed.Parts[i].ID)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return nil, wrong{fmt.Sprintf("there is no part %q on the sheets; %s", name, sheet.DidYouMean(name, known, "`firstbolt fits` lists all parts"))}
	}
	var ids []string
	for _, p := range found {
		ids = append(ids, fmt.Sprintf("%s (%s)", p.ID, p.Origin))
	}
	return nil, wrong{fmt.Sprintf("%d parts are called %q; name one by its id: %s", len(found), name, strings.Join(ids, ", "))}
}
