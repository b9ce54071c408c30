// Package determinism checks that the same bytes in give the same bytes out, run after run and on every machine.
package determinism

import (
	"bytes"
	"encoding/json"
	"flag"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

var update = flag.Bool("update", false, "write the golden reports anew")

// goldenSession is small, and has both counted and timed sets, slips and captioner's faults.
const goldenSession = "desk-neck"

// The golden reports make every change of a figure visible in review. After a change that is meant: go test ./tests/determinism -update, and read the difference.
func TestGoldenReports(t *testing.T) {
	for _, s := range corpus.Sessions() {
		if s.Name != goldenSession {
			continue
		}
		for _, f := range s.Files() {
			track, err := caption.Parse(f.Data, f.Name, caption.Options{})
			if err != nil {
				t.Fatal(err)
			}
			got, err := json.MarshalIndent(analyze.Measure(segment.Decode(track), analyze.Options{}), "", " ")
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, '\n')
			path := filepath.Join("testdata", f.Name+".json")
			if *update {
				if err := os.WriteFile(path, got, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if line, a, b := firstDifference(want, got); line > 0 {
				t.Errorf("%s:%d: the report changed (-want +got)\n-%s\n+%s", path, line, a, b)
			}
		}
	}
}

// firstDifference returns the first line, from 1, in which two texts differ, and what stands there; 0 for the same text.
func firstDifference(a, b []byte) (line int, inA, inB string) {
	la, lb := strings.Split(string(a), "\n"), strings.Split(string(b), "\n")
	for i := range max(len(la), len(lb)) {
		x, y := "(end)", "(end)"
		if i < len(la) {
			x = la[i]
		}
		if i < len(lb) {
			y = lb[i]
		}
		if x != y {
			return i + 1, x, y
		}
	}
	return 0, "", ""
}

// Two runs of one program start with different hash seeds, so an order taken from a map would show. A build for processors with fused
// multiply-add may round x*y+z once instead of twice, as arm64 always does (go.dev/ref/spec, Floating-point operators): a result that depends on
// that differs between GOAMD64=v1 and v3.
func TestSameBytesEverywhere(t *testing.T) {
	if testing.Short() {
		t.Skip("builds and runs a program twice; not with -short")
	}
	first := build(t, "GOAMD64=v1")
	want := run(t, first)
	if n := bytes.Count(want, []byte("\n")); n != 54 {
		t.Fatalf("%d files measured, want 54", n)
	}
	same(t, "a second run", want, run(t, first))
	if runtime.GOARCH != "amd64" {
		t.Skipf("GOAMD64=v3 means nothing on %s, which has one way of rounding", runtime.GOARCH)
	}
	fused := build(t, "GOAMD64=v3")
	out, err := exec.Command(fused).CombinedOutput()
	if err != nil && bytes.Contains(out, []byte("microarchitecture support")) {
		t.Skip("this processor cannot run GOAMD64=v3")
	}
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	same(t, "GOAMD64=v3", want, out)
}

// Where the compiler for arm64 fuses a multiplication and an addition of ours, the source lacks a conversion that rounds the product: float64(x*y) + z. This names each such line, on any machine, by
// asking that compiler for its assembly.
func TestNothingIsFused(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles for another processor; not with -short")
	}
	cmd := exec.Command("go", "build", "-gcflags=captally.example/captally/...=-S", "captally.example/captally/segment/...", "captally.example/captally/analyze/...")
	cmd.Env = append(os.Environ(), "GOARCH=arm64", "CGO_ENABLED=0")
	out, err := cmd.CombinedOutput() // the assembly is written to stderr
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if !bytes.Contains(out, []byte("FMULD")) {
		t.Fatal("no multiplication in the assembly; the listing is broken")
	}
	lines := map[string]bool{}
	for _, m := range fusion.FindAllSubmatch(out, -1) {
		lines[string(m[1])] = true
	}
	for _, line := range slices.Sorted(maps.Keys(lines)) {
		t.Errorf("%s: a product is not rounded before it is added to; write float64(x*y) + z, or - z", line)
	}
}

// fusion is an instruction for arm64 that multiplies and adds with one rounding, with the file and line that it comes from.
var fusion = regexp.MustCompile(`\(\S*/((?:segment|analyze)/\S+\.go:\d+)\)\s+FN?M(?:ADD|SUB)[DS]\s`)

// build builds the program of ./reports with a setting and returns its path.
func build(t *testing.T, setting string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "reports.exe")
	cmd := exec.Command("go", "build", "-o", path, "./reports")
	cmd.Env = append(os.Environ(), setting, "CGO_ENABLED=0")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%s go build: %v\n%s", setting, err, out)
	}
	return path
}

func run(t *testing.T, path string) []byte {
	t.Helper()
	out, err := exec.Command(path).Output()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func same(t *testing.T, what string, want, got []byte) {
	t.Helper()
	if line, a, b := firstDifference(want, got); line > 0 {
		t.Errorf("%s gives other reports or notes (file, report, notes):\n%s\n%s", what, a, b)
	}
}
