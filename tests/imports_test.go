// Package tests checks the project as a whole, from outside its packages.
package tests

import (
	"os/exec"
	"strings"
	"testing"
)

const module = "captally.example/captally/"

// layer says which packages of the project the packages below a path may import, and why not the others. The first row that a package's path
// falls under counts.
type layer struct {
	packages string   // path within the module; the packages below it count too
	may      []string // paths within the module, likewise
	why      string
}

// The data goes one way: captions, words, session, report, notes. Each step can be used without those after it.
var layers = []layer{
	{"segment/caption", nil, "a reader of captions knows words and times, nothing of exercise"},
	{"segment/chain", nil, "arithmetic of states and probabilities, without a word of English"},
	{"segment/numeral", nil, "number words are a matter of language alone"},
	{"segment/", []string{"segment/caption", "segment/chain", "segment/numeral", "segment/phrases"}, "the parts of segment stand side by side under it, each to be tested alone"},
	{"segment", []string{"segment/"}, "what was done is found in the words; what to make of it comes later"},
	{"analyze/settle", []string{"analyze", "segment", "segment/"}, "decisions change the session, and what they mean for the figures is measured"},
	{"analyze", []string{"segment", "segment/"}, "measures come from the session; they neither word notes nor read labels"},
	{"notes", []string{"analyze", "segment", "segment/"}, "notes word a report; they compute nothing from labelled sessions"},
	{"corpus/", []string{"corpus", "corpus/", "analyze", "segment", "segment/"}, "programs beside the labels may use all that is measured"},
	{"corpus", []string{"analyze", "segment/caption"}, "scoring compares a report with labels, whoever made the report"},
	{"cmd", []string{"cmd/", "corpus", "notes", "analyze", "analyze/", "segment", "segment/"}, "the command is the door to everything, the labels being its demonstration"},
	{"tests", []string{"tests/", "corpus", "notes", "analyze", "analyze/", "segment", "segment/"}, "checks from outside; nothing imports them"},
}

// below reports whether a package falls under a path: a path that ends in a slash holds what is below it, another one the package itself and what is below.
func below(pkg, path string) bool {
	if folder, ok := strings.CutSuffix(path, "/"); ok {
		return strings.HasPrefix(pkg, folder+"/")
	}
	return pkg == path || strings.HasPrefix(pkg, path+"/")
}

// allowed reports whether a package may import another by the paths of a layer; here a path without a slash is that package alone.
func (l layer) allowed(pkg string) bool {
	for _, path := range l.may {
		if pkg == path || strings.HasSuffix(path, "/") && below(pkg, path) {
			return true
		}
	}
	return false
}

// goList runs go list and returns its lines.
func goList(t *testing.T, args ...string) []string {
	t.Helper()
	cmd := exec.Command("go", append([]string{"list"}, args...)...)
	var stderr strings.Builder
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list %s: %v\n%s", strings.Join(args, " "), err, stderr.String())
	}
	return strings.Split(strings.TrimSpace(string(out)), "\n")
}

func TestImportsRunOneWay(t *testing.T) {
	seen := 0
	for _, line := range goList(t, "-f", `{{.ImportPath}} {{join .Imports " "}}`, module+"...") {
		fields := strings.Fields(line)
		pkg := strings.TrimPrefix(fields[0], module)
		var rule *layer
		for i := range layers {
			if below(pkg, layers[i].packages) {
				rule = &layers[i]
				break
			}
		}
		if rule == nil {
			t.Errorf("%s falls under no layer: give it a row in this test, or a place in a package that has one", pkg)
			continue
		}
		for _, path := range fields[1:] {
			imported, ours := strings.CutPrefix(path, module)
			if !ours {
				continue
			}
			seen++
			if !rule.allowed(imported) {
				t.Errorf("%s imports %s: %s", pkg, imported, rule.why)
			}
		}
	}
	if seen < 5 {
		t.Errorf("only %d imports within the module were seen; the listing is broken", seen)
	}
}

// foreign are the packages of others that stay out of what a user runs, and why.
var foreign = []struct{ path, why string }{
	{"net/http/pprof", "a tool that reads health data opens no door for looking into it"},
	{"github.com/asticode/go-astisub", "only the reader of rare formats and the comparison of speed may use it"},
	{"github.com/jdkato/prose", "its tokens carry no times, so it has no place on the way from captions to measures; notes may use it on finished text"},
	{"github.com/santhosh-tekuri/jsonschema", "the schema is checked by tests; the command need not carry a validator"},
	{"gonum.org", "an indirect requirement of others; nothing here needs it"},
	{"unsafe", "nothing here needs it"},
	{"time/tzdata", "times here are offsets from the start of a recording"},
}

// mayUse are the exceptions: our package, and the foreign one that it may import.
var mayUse = map[string]string{"segment/caption": "github.com/asticode/go-astisub", "notes": "github.com/jdkato/prose"}

func TestForeignImports(t *testing.T) {
	for _, line := range goList(t, "-f", `{{.ImportPath}} {{join .Imports " "}}`, module+"...") {
		fields := strings.Fields(line)
		pkg := strings.TrimPrefix(fields[0], module)
		for _, path := range fields[1:] {
			for _, f := range foreign {
				if (path == f.path || strings.HasPrefix(path, f.path+"/")) && mayUse[pkg] != f.path {
					t.Errorf("%s imports %s: %s", pkg, path, f.why)
				}
			}
		}
	}
}

// What is measured must not depend on the clock, the network or chance: same bytes in, same bytes out.
func TestMeasuringIsAFunction(t *testing.T) {
	why := map[string]string{
		"net": "measuring asks no network", "net/http": "measuring asks no network", "math/rand": "measuring leaves nothing to chance",
		"math/rand/v2": "measuring leaves nothing to chance", "crypto/rand": "measuring leaves nothing to chance", "os": "files are opened by the command; a library is given bytes",
		"os/exec": "measuring starts no program", "log": "warnings ride in the result",
	}
	for _, line := range goList(t, "-f", `{{.ImportPath}} {{join .Imports " "}}`, module+"segment/...", module+"analyze/...", module+"notes/...") {
		fields := strings.Fields(line)
		for _, path := range fields[1:] {
			if reason, bad := why[path]; bad {
				t.Errorf("%s imports %s: %s", strings.TrimPrefix(fields[0], module), path, reason)
			}
		}
	}
}

// Every package says what it is for.
func TestPackagesAreDocumented(t *testing.T) {
	for _, line := range goList(t, "-f", `{{.ImportPath}}|{{.Doc}}|{{len .GoFiles}}`, module+"...") {
		f := strings.Split(line, "|")
		if f[len(f)-1] != "0" && f[1] == "" {
			t.Errorf("%s has no package comment", f[0])
		}
	}
}
