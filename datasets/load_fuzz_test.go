package datasets_test

import (
	"os"
	"testing"

	"firstbolt/datasets"
)

// Whatever stands in the sheets, loading ends with a shed or with complaints that say what is wanted.
func FuzzLoad(f *testing.F) {
	for _, name := range []string{"parts", "rider", "bikes", "fitted"} {
		data, err := os.ReadFile("testdata/messy/" + name + ".csv")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(name, string(data))
	}
	f.Add("rider", "setting,value\npriorities,\"=;a=;;braking=1,2,3\"\nranking,>>\n")
	f.Add("parts", "part,slot,price,facts\nx,/+,1,=;=\n")
	f.Add("measured", "bike,slot,fact,value,part\n,frame,seat_tube_bore_mm,27.2?,\n,,tread,slick,tyre\n,rider,riding,3,\n,,bead_mm,1e9,=\n")
	f.Add("rules", "rule,left,relation,right,margin,when,bridge,severity,fails\nx,2*chain.links + 1,same,no,-1,chain=none,chain: step=links,rule,no\n")
	f.Add("facts", "fact,kind,low,high,slots,plausible\nx,number,2,1,chain,3=200\n")
	f.Add("kinds", "kind,places,facts,source\nx,front tyre,tread=knobbly,me\n")
	f.Fuzz(func(t *testing.T, name, text string) {
		if _, known := datasets.TableNamed(name); !known {
			return
		}
		files := map[string]string{"parts.csv": "part,slot,price\ntyre,front tyre,20\n", "rider.csv": "setting,value\nlike," + hardtail + "\n"}
		files[name+".csv"] = text
		shed, complaints, err := datasets.LoadFS(shedOf(files), "shed", datasets.Options{})
		if err != nil || shed == nil {
			t.Fatalf("%v", err)
		}
		for _, c := range complaints {
			if c.Wanted == "" || c.Code == "" {
				t.Errorf("a complaint without code or what is wanted: %+v", c)
			}
		}
	})
}
