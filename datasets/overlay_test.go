package datasets_test

import (
	"testing"
	"testing/fstest"

	"firstbolt/datasets"
)

// A rider's own tables are laid in the order of what they name, whatever their files are called, and their sums are looked at.
func TestOwnTablesOfAShed(t *testing.T) {
	t.Parallel()
	files := fstest.MapFS{
		"parts.csv": {Data: []byte("part,kind,price\ntyre A1,knobbly tyre,10\n")},
		"bikes.csv": {Data: []byte("bike,owned,like\nmine,yes,store hardtail cable disc 3x7\n")},
		"rules.csv": {Data: []byte("rule,left,relation,right,table,severity,fails\nmine,chain.speeds,pair_in,cassette.speeds,my pairs,rule,no\n")},
		"pairs.csv": {Data: []byte("table,left,right\nmy pairs,7,7\n")},
	}
	shed, complaints, err := datasets.LoadFS(files, "shed", datasets.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range complaints {
		if !c.Warning {
			t.Errorf("own rules with own pairs: %s", c)
		}
	}
	if len(shed.Tables.Pairs["my pairs"]) != 1 {
		t.Error("the own pairs are not there")
	}
	files["curves.csv"] = &fstest.MapFile{Data: []byte("measure,criterion,share,says,unit,points\nretention,retention,90,chain,x,0:0; 1:100\n")}
	_, complaints, err = datasets.LoadFS(files, "shed", datasets.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range complaints {
		if c.Code == "shares" {
			return
		}
	}
	t.Errorf("shares of 90 percent were taken: %v", complaints)
}
