package keep

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"captally.example/captally/analyze/settle"
)

// The steps of a change, as they are told, in order.
var steps = []string{"begun", "created", "half", "written", "flushed", "renamed"}

// killAt is set for a program that is to be killed at a step.
const killAt = "KEEP_TEST_KILL_AT"

func TestMain(m *testing.M) {
	if at := os.Getenv(killAt); at != "" {
		_, err := changeWatched(os.Args[1], func(d *settle.Decisions) error { return d.Add(number(99)) }, func(step string) {
			if step == at {
				p, _ := os.FindProcess(os.Getpid())
				_ = p.Kill() // SIGKILL: nothing is tidied up
				select {}
			}
		})
		fmt.Fprintln(os.Stderr, "not killed:", err)
		os.Exit(3)
	}
	os.Exit(m.Run())
}

func number(n int) settle.Decision {
	return settle.Decision{Kind: settle.Number, Reps: n, Set: &settle.SetRef{Start: 10, End: 40, Exercise: "heel raise"}}
}

func appended(t *testing.T, path string, n int) *settle.Decisions {
	t.Helper()
	d, err := Append(path, "/somewhere/knee.srt", []byte("captions"), nil, number(n))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// done returns the repetitions of the decisions in a file, which must be whole.
func done(t *testing.T, path string) string {
	t.Helper()
	d, err := Load(path)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, x := range d.Made {
		all = append(all, fmt.Sprint(x.Reps))
	}
	return strings.Join(all, " ")
}

// files lists what lies in the folder of a file.
func files(t *testing.T, path string) string {
	t.Helper()
	all, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range all {
		names = append(names, f.Name())
	}
	return strings.Join(names, " ")
}

func TestAppendAndUndo(t *testing.T) {
	path := filepath.Join(t.TempDir(), "knee.srt.captally.json")
	if got := done(t, path); got != "" {
		t.Fatalf("there are decisions before the first: %s", got)
	}
	appended(t, path, 1)
	d := appended(t, path, 2)
	// printf captions | sha256sum
	const sum = "dcb3eeed0f2b911bb615f4707c3fa6d775624d8f2c3f4cc66924afbbe7946234"
	if d.Captions != sum || d.Name != "knee.srt" || d.Revision != 2 {
		t.Errorf("the file is of %q (%s), revision %d", d.Name, d.Captions, d.Revision)
	}
	if _, err := Undo(path, 1); !errors.Is(err, ErrChanged) {
		t.Errorf("undoing what is not last: %v", err)
	}
	undone, err := Undo(path, 2)
	if err != nil || len(undone) != 1 || undone[0].Reps != 2 {
		t.Errorf("undone: %v, %v", undone, err)
	}
	if got := done(t, path); got != "1" {
		t.Errorf("the file has %q after undo, want 1", got)
	}
	if _, err := Append(path, "knee.srt", nil, nil, settle.Decision{Kind: settle.Number}); err == nil {
		t.Error("a decision without its set was kept")
	}
	if got := files(t, path); got != "knee.srt.captally.json" {
		t.Errorf("the folder holds %s", got)
	}
	if info, _ := os.Stat(path); info.Mode().Perm()&0o077 != 0 && os.PathSeparator == '/' {
		t.Errorf("others may read the file: %v", info.Mode())
	}
}

// Decisions that are made at one go are kept and undone at one go, and where what they lead to is refused, none of them is kept.
func TestTogether(t *testing.T) {
	path := filepath.Join(t.TempDir(), "knee.srt.captally.json")
	appended(t, path, 1)
	refusal := errors.New("it runs into the next set")
	seen := 0
	_, err := Append(path, "knee.srt", nil, func(d *settle.Decisions) error { seen = len(d.Made); return refusal }, number(2), number(3))
	if !errors.Is(err, refusal) || seen != 3 || done(t, path) != "1" {
		t.Errorf("refused of %d: %v; the file has %q", seen, err, done(t, path))
	}
	if _, err := Append(path, "knee.srt", nil, nil, number(2), settle.Decision{Kind: settle.Number}); err == nil || done(t, path) != "1" {
		t.Errorf("half of two was kept: %v; the file has %q", err, done(t, path))
	}
	if _, err := Append(path, "knee.srt", nil, nil, number(2), number(3)); err != nil || done(t, path) != "1 2 3" {
		t.Errorf("%v; the file has %q", err, done(t, path))
	}
	if undone, err := Undo(path, 3); err != nil || len(undone) != 2 || done(t, path) != "1" {
		t.Errorf("undone %v (%v); the file has %q", undone, err, done(t, path))
	}
}

// Decisions lie beside the captions, or else are found by the captions' content.
func TestOf(t *testing.T) {
	folder, captions, data := t.TempDir(), filepath.Join(t.TempDir(), "knee.srt"), []byte("captions")
	// printf captions | sha256sum
	dropped := filepath.Join(folder, "dcb3eeed0f2b911bb615f4707c3fa6d775624d8f2c3f4cc66924afbbe7946234.captally.json")
	check := func(what, path, also string) {
		t.Helper()
		if p, a := Of(captions, data, folder); p != path || a != also {
			t.Errorf("%s: %q and %q, want %q and %q", what, p, a, path, also)
		}
	}
	check("neither", Beside(captions), "")
	appended(t, dropped, 1)
	check("dropped", dropped, "")
	appended(t, Beside(captions), 1)
	check("both", Beside(captions), dropped)
	if p, a := Of(captions, data, ""); p != Beside(captions) || a != "" {
		t.Errorf("without a folder: %q and %q", p, a)
	}
}

// What a later captally wrote is no broken file: it stays where it is.
func TestLaterVersion(t *testing.T) {
	path := filepath.Join(t.TempDir(), "knee.srt.captally.json")
	if err := os.WriteFile(path, []byte(`{"captally_decisions": 2, "made": [], "moods": 4}`), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, aside, err := Open(path); err == nil || aside != "" || !strings.Contains(err.Error(), "a later captally") {
		t.Errorf("opened: %q, %v", aside, err)
	}
	if got := files(t, path); got != "knee.srt.captally.json" {
		t.Errorf("the folder holds %s", got)
	}
}

// A program that is killed at any step of a change leaves the decisions as they were before or after it, and whoever comes next goes on.
func TestKilled(t *testing.T) {
	for _, step := range steps {
		t.Run(step, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "knee.srt.captally.json")
			appended(t, path, 1)
			appended(t, path, 2)
			cmd := exec.Command(os.Args[0], path)
			cmd.Env = append(os.Environ(), killAt+"="+step)
			out, err := cmd.CombinedOutput()
			if err == nil || cmd.ProcessState.ExitCode() == 3 {
				t.Fatalf("it was not killed: %v %s", err, out)
			}
			want := "1 2"
			if step == "renamed" {
				want = "1 2 99"
			}
			if got := done(t, path); got != want {
				t.Errorf("the file has %q, want %q", got, want)
			}
			appended(t, path, 4)
			if got := done(t, path); got != want+" 4" {
				t.Errorf("the next left %q, want %q", got, want+" 4")
			}
			if got := files(t, path); got != "knee.srt.captally.json" {
				t.Errorf("the folder holds %s", got)
			}
		})
	}
}

// The list of steps above is complete, or TestKilled would leave one out.
func TestSteps(t *testing.T) {
	var told []string
	_, err := changeWatched(filepath.Join(t.TempDir(), "x.json"), func(d *settle.Decisions) error { return d.Add(number(1)) }, func(s string) { told = append(told, s) })
	if err != nil || strings.Join(told, " ") != strings.Join(steps, " ") {
		t.Errorf("steps %v, want %v (%v)", told, steps, err)
	}
}

func TestManyAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "knee.srt.captally.json")
	const writers, each = 4, 8
	var wg sync.WaitGroup
	for w := range writers {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range each {
				if _, err := Append(path, "knee.srt", nil, nil, number(1+w*each+i)); err != nil {
					t.Error(err)
				}
			}
		}()
	}
	wg.Wait()
	d, err := Load(path)
	if err != nil || len(d.Made) != writers*each || d.Revision != writers*each {
		t.Fatalf("%d decisions of %d are there (%v)", len(d.Made), writers*each, err)
	}
	seen := map[int]bool{}
	for i, x := range d.Made {
		if x.ID != i+1 {
			t.Errorf("decision %d has the id %d", i+1, x.ID)
		}
		seen[x.Reps] = true
	}
	if len(seen) != writers*each {
		t.Errorf("%d different decisions of %d", len(seen), writers*each)
	}
}

func TestSave(t *testing.T) {
	path := filepath.Join(t.TempDir(), "knee.srt.captally.json")
	mine := appended(t, path, 1)
	read := mine.Revision
	if err := mine.Add(number(2)); err != nil {
		t.Fatal(err)
	}
	appended(t, path, 7) // another page
	if err := Save(path, mine, read); !errors.Is(err, ErrChanged) {
		t.Errorf("saving over another's decision: %v", err)
	}
	if got := done(t, path); got != "1 7" {
		t.Errorf("the file has %q", got)
	}
}

// A file with a fault stays as it is, or is moved aside; it is never written over.
func TestBroken(t *testing.T) {
	const broken = "{\n \"captally_decisions\": 1,\n \"made\": [{]\n"
	path := filepath.Join(t.TempDir(), "knee.srt.captally.json")
	if err := os.WriteFile(path, []byte(broken), 0o600); err != nil {
		t.Fatal(err)
	}
	var fault *settle.Fault
	if _, err := Append(path, "knee.srt", nil, nil, number(1)); !errors.As(err, &fault) || fault.Line != 3 {
		t.Errorf("adding to a broken file: %v", err)
	}
	if data, _ := os.ReadFile(path); string(data) != broken {
		t.Errorf("the broken file was changed to %q", data)
	}
	d, aside, err := Open(path)
	if err != nil || len(d.Made) != 0 || !strings.Contains(aside, ":3: ") || !strings.Contains(aside, path+".broken-1") {
		t.Errorf("opening it: %v, %q, %v", d, aside, err)
	}
	if data, _ := os.ReadFile(path + ".broken-1"); string(data) != broken {
		t.Errorf("what was moved aside is %q", data)
	}
	appended(t, path, 1)
	if err := os.WriteFile(path, []byte(broken), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, aside, err := Open(path); err != nil || !strings.Contains(aside, ".broken-2") {
		t.Errorf("the second broken file: %q, %v", aside, err)
	}
	if _, aside, err := Open(path); err != nil || aside != "" {
		t.Errorf("no file: %q, %v", aside, err)
	}
}
