package main

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"sort"
	"testing"
	"time"

	"propsoff.example/scripts/browser"
)

func TestProf(t *testing.T) {
	dir := os.Getenv("PAGE")
	s := httptest.NewServer(http.FileServer(http.Dir(dir)))
	b := browser.For(t)
	p, err := b.New()
	must(err)
	must(p.Viewport(1280, 800, 1, false))
	must(p.Call("Profiler.enable", nil, nil))
	must(p.Call("Profiler.setSamplingInterval", map[string]any{"interval": 1000}, nil))
	must(p.Call("Profiler.start", nil, nil))
	must(p.Go(s.URL))
	must(p.WaitFor("document.documentElement.classList.contains('runs')", 90*time.Second))
	var r struct {
		Profile struct {
			Nodes []struct {
				ID        int
				CallFrame struct{ FunctionName string }
				Children  []int
			}
			Samples    []int
			TimeDeltas []int
		}
	}
	must(p.Call("Profiler.stop", nil, &r))
	name := map[int]string{}
	parent := map[int]int{}
	for _, n := range r.Profile.Nodes {
		name[n.ID] = n.CallFrame.FunctionName
		for _, c := range n.Children {
			parent[c] = n.ID
		}
	}
	self, total := map[string]int{}, map[string]int{}
	for i, s := range r.Profile.Samples {
		d := r.Profile.TimeDeltas[i]
		self[name[s]] += d
		seen := map[string]bool{}
		for x := s; x != 0; x = parent[x] {
			if !seen[name[x]] {
				seen[name[x]] = true
				total[name[x]] += d
			}
		}
	}
	for title, m := range map[string]map[string]int{"self": self, "total": total} {
		var ks []string
		for k := range m {
			ks = append(ks, k)
		}
		sort.Slice(ks, func(i, j int) bool { return m[ks[i]] > m[ks[j]] })
		fmt.Println("==", title)
		for _, k := range ks[:min(70, len(ks))] {
			fmt.Printf("%6d ms %s\n", m[k]/1000, k)
		}
	}
}
