package datasets_test

import (
	"strings"
	"testing"

	"firstbolt/datasets"
)

// What `schema` lists is what the reader knows, each name once.
func TestEntries(t *testing.T) {
	t.Parallel()
	tables, err := datasets.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	likes := map[string]bool{}
	for _, k := range tables.Likes {
		likes[k.Name] = true
	}
	for table, want := range map[string]int{
		"kinds": len(tables.Kinds), "slots": len(tables.Slots), "facts": len(tables.Facts), "likes": len(likes),
		"criteria": len(tables.Criteria), "profiles": len(tables.Profiles), "rules": 0,
	} {
		entries, err := datasets.Entries(table)
		if err != nil || len(entries) != want {
			t.Errorf("%s: got %d entries, %v; want %d", table, len(entries), err, want)
		}
		for _, e := range entries {
			if e.Name == "" || e.Says == "" || strings.Contains(e.Name+e.Says, "{") {
				t.Errorf("%s: %+v", table, e)
			}
		}
	}
}

// A kind that nobody knows is answered with the few kinds that share its words; the beginning of one kind is that kind.
func TestKindNames(t *testing.T) {
	t.Parallel()
	load := func(kind string) string {
		_, complaints, err := datasets.LoadFS(shedOf(map[string]string{
			"parts.csv": "part;kind;price\nthing;" + kind + ";20\n", "rider.csv": "setting,value\nlike," + hardtail,
		}), "shed", datasets.Options{})
		if err != nil || len(complaints) != 1 {
			t.Errorf("%s: got %v %v, want one complaint", kind, complaints, err)
			return ""
		}
		return complaints[0].String()
	}
	for kind, says := range map[string]string{
		"chain 9-speed":                  `it is taken as "chain 9-speed, 116 links"`,
		"9-speed chain":                  `it is taken as "chain 9-speed, 116 links"`,
		"9 speed bicycle chain":          `"chain 9-speed, 116 links"`,
		"knobly tyre":                    `did you mean "knobbly tyre"?`,
		"hydraulic disc brake with hose": `"hydraulic disc brake complete, front"`,
		"flux capacitor":                 "`firstbolt schema kinds` lists them",
	} {
		got := load(kind)
		if !strings.Contains(got, says) || strings.Count(got, `"`) > 10 {
			t.Errorf("%s: got %s, want %s and no long list", kind, got, says)
		}
	}
	if got := load("hydraulic disc brake complete"); strings.Contains(got, "taken as") {
		t.Errorf("two kinds begin so, yet %s", got)
	}
}
