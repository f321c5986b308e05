package ink

import (
	"encoding/json"
	"flag"
	"math"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the goldens anew")

func TestDescribeSaysWhatIsDrawn(t *testing.T) {
	p := NewPage(960, 600, 0, Dark())
	p.Group("state")
	p.Rect("badge", Rect{20, 20, 300, 80}, Paint{Fill: Disarmed})
	p.Text("state", 170, 60, Style{Size: 40, Weight: Bold, Colour: Paper, Anchor: Centre | Middle, State: true}, "DISARMED")
	p.Group("why")
	p.Block("throttle-up", 20, 130, Style{Size: 16, Colour: Refusal}, Block{Width: 200, Crossed: 0.5}, "Throttle reads 1012 µs; bring it below 1000.")
	p.Polyline("roll", []Point{{400, 100}, {420, 200}, {410, 300}}, Paint{Line: Roll})
	p.Hit("radio-power", "L", Rect{700, 500, 100, 40})
	got, err := json.MarshalIndent(Describe(p), "", " ")
	if err != nil {
		t.Fatal(err)
	}
	const golden = "testdata/describe.json"
	if *update {
		if err := os.WriteFile(golden, append(got, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if strings.TrimSpace(string(want)) != string(got) {
		t.Errorf("differs from %s (-update writes it anew):\n%s", golden, got)
	}
}

func TestDescribeJoinsTheLinesOfABlock(t *testing.T) {
	p := newPage(t)
	const text = "one two three four five six seven"
	p.Block("a", 10, 20, Style{Size: 16}, Block{Width: 80, Crossed: 0.4}, text)
	p.Block("b", 10, 300, Style{Size: 16}, Block{Width: 80}, text)
	s := Describe(p)
	if len(s.Items) != 2 {
		t.Fatalf("%d items: %+v", len(s.Items), s.Items)
	}
	if got, ok := s.Text("b"); !ok || got != text || s.Items[1].Lines < 3 {
		t.Errorf("%q", got)
	}
	if a := s.Named("a"); len(a) != 1 || math.Abs(a[0].Crossed-0.4) > 1e-3 || a[0].Box[3] <= 20 {
		t.Errorf("%+v", a)
	}
	if _, ok := s.Text("c"); ok {
		t.Error("found what is not there")
	}
}
