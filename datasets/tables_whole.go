package datasets

import (
	"fmt"
	"math"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// wholeFaults are the faults that no single row shows: shares and profiles that do not come to 100.
func wholeFaults(tables *model.Tables) []sheet.Complaint {
	var faults []sheet.Complaint
	for _, c := range tables.Criteria {
		total := 0
		for _, m := range tables.Measures {
			if m.Criterion == c.Key {
				total += m.Share
			}
		}
		if total != 100 {
			faults = append(faults, sheet.Complaint{
				Code: "shares", Sheet: "curves.csv", Found: fmt.Sprint(total),
				Wanted: "shares of the measures of " + c.Key + " that come to 100", Fix: "change its shares",
			})
		}
	}
	for _, p := range tables.Profiles {
		total := 0.0
		for _, points := range p.Points {
			total += points.Points
		}
		if math.Abs(total-100) > 1e-9 {
			faults = append(faults, sheet.Complaint{
				Code: "points", Sheet: "profiles.csv", Found: fmt.Sprint(total),
				Wanted: "points of profile " + p.Name + " that come to 100", Fix: "change its points",
			})
		}
	}
	return faults
}
