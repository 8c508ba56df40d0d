package datasets_test

import (
	"strings"
	"testing"

	"firstbolt/datasets"
)

// A wheel's name in inches is never turned into millimetres: 24 inch is a bead seat of 507 mm, not of 609.6. The bead
// seats are those of ISO 5775-2 (from memory).
func TestBeadInInches(t *testing.T) {
	t.Parallel()
	for _, w := range []struct{ cell, says string }{
		{`27.5"`, "27.5 inch is 584"},
		{`"27,5"`, "27.5 inch is 584"},
		{"27.5", "27.5 inch is 584"},
		{"26", "26 inch is 559"},
		{"29 inch", "29 inch is 622"},
		{`24"`, "24 inch is 507"},
		{"24in", "24 inch is 507"},
		{"650b", "650b is 584"},
		{"27.5 x 2.1", "27.5 inch is 584"},
		{"20 zoll", "20 inch is 406"},
		{"57-584", "write the second number: 584"},
		{`25"`, "write the second number of the marking"},
	} {
		shed, complaints, err := datasets.LoadFS(shedOf(map[string]string{
			"parts.csv": "part;slot;price;bead_mm\ntyre;front tyre;20;" + w.cell + "\n",
			"rider.csv": "setting,value\nlike," + hardtail,
		}), "shed", datasets.Options{})
		if err != nil || len(complaints) != 1 || !strings.Contains(complaints[0].String(), w.says) {
			t.Errorf("%s: got %v %v, want one complaint that says %q", w.cell, complaints, err, w.says)
			continue
		}
		if v, said := shed.Parts[0].Facts["bead_mm"]; said {
			t.Errorf("%s: read as %+v, want nothing", w.cell, v)
		}
	}
	shed := loadClean(t, datasets.Options{}, map[string]string{
		"parts.csv": "part,slot,price,bead_mm\ntyre,front tyre,20,584\nother,front tyre,20,622 mm\n",
		"rider.csv": "setting,value\nlike," + hardtail,
	})
	if len(shed.Parts) != 2 || !shed.Parts[1].Facts["bead_mm"].Known() {
		t.Errorf("got %+v, want both bead seats", shed.Parts)
	}
}
