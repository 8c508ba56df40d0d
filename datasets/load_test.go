package datasets_test

import (
	"testing"
	"testing/fstest"

	"firstbolt/datasets"
)

func shedFS(files map[string]string) fstest.MapFS {
	out := fstest.MapFS{}
	for name, text := range files {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

func TestTry(t *testing.T) {
	s, cs, err := datasets.LoadFS(shedFS(map[string]string{"parts.csv": "part,slot,price\nfront tyre F6,front tyre / rear tyre,24.90\nx,chian,3\n",
		"bikes.csv": "bike,owned\nmine,yes\n", "fitted.csv": "bike,slot,condition,bead_mm\nmine,front tyre,tired,584\n"}), "x", datasets.Options{})
	t.Log(s, cs, err)
}
