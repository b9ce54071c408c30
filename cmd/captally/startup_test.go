package main

import (
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"testing"
)

// TestStartup looks at what is done before main begins, on every start, --help included: no package takes a millisecond.
// Timed by the Go runtime (GODEBUG=inittrace=1); the best of several starts counts, since other
// programs run too.
func TestStartup(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	best := map[string]float64{}
	for range 7 {
		cmd := exec.Command(self, "-test.run=^$")
		cmd.Env = append(os.Environ(), "GODEBUG=inittrace=1")
		trace, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %s", err, trace)
		}
		for _, m := range regexp.MustCompile(`(?m)^init (\S+) @\S+ ms, (\S+) ms clock`).FindAllStringSubmatch(string(trace), -1) {
			took, err := strconv.ParseFloat(m[2], 64)
			if err != nil {
				t.Fatal(err)
			}
			if before, known := best[m[1]]; !known || took < before {
				best[m[1]] = took
			}
		}
	}
	if len(best) == 0 {
		t.Fatal("the runtime traced nothing")
	}
	for name, took := range best {
		if took >= 1 {
			t.Errorf("%s takes %.2f ms before main begins, want under 1 ms", name, took)
		}
	}
}
