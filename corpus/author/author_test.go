package author_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"captally.example/captally/corpus/author"
)

const (
	captionsDir   = "../more"
	recognisedDir = "../more-recognised"
)

// TestCommitted renders every script twice and compares with the files beside it.
func TestCommitted(t *testing.T) {
	scripts, _ := filepath.Glob(filepath.Join(captionsDir, "*.script.txt"))
	if len(scripts) < 12 {
		t.Errorf("%d scripts in %s, want at least 12", len(scripts), captionsDir)
	}
	known := map[string]bool{}
	for _, path := range scripts {
		script, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for range 2 {
			captions, recognised, err := author.Render(path, script)
			if err != nil {
				t.Fatal(err)
			}
			same(t, captionsDir, captions, known)
			same(t, recognisedDir, recognised, known)
		}
	}
	for _, dir := range []string{captionsDir, recognisedDir} {
		files, _ := os.ReadDir(dir)
		for _, f := range files {
			name := filepath.Join(dir, f.Name())
			if !known[name] && !strings.HasSuffix(name, ".script.txt") && !strings.HasSuffix(name, ".md") {
				t.Errorf("%s: no script renders this file", name)
			}
		}
	}
}

func same(t *testing.T, dir string, files []author.File, known map[string]bool) {
	t.Helper()
	for _, f := range files {
		name := filepath.Join(dir, f.Name)
		known[name] = true
		if got, err := os.ReadFile(name); err != nil {
			t.Error(err)
		} else if !bytes.Equal(got, f.Data) {
			t.Errorf("%s is not what its script renders to: run corpus/author/render", name)
		}
	}
}

// A truth is read from the files with fields of its own, so that a change of
// the package's types cannot hide a change of the format.
type truth struct {
	Duration float64 `json:"duration_s"`
	Phases   []struct {
		Kind string
		span
	}
	Sets []struct {
		ID, Phase, Exercise, Side string
		span
		Go         *float64 `json:"go_s"`
		Prescribed *dose
		Performed  dose
		Pace       float64 `json:"pace_s"`
	}
	Rests []struct {
		span
		Actual float64 `json:"actual_s"`
	}
	Miscounts []struct {
		Kind, Set                             string
		Said, Expected, Performed, Prescribed int
	}
	Faults map[string][]struct {
		At float64 `json:"at_s"`
	} `json:"caption_faults"`
}

type span struct {
	Start float64 `json:"start_s"`
	End   float64 `json:"end_s"`
}

type dose struct{ Reps, Seconds float64 }

func TestTruths(t *testing.T) {
	names, _ := filepath.Glob(filepath.Join(captionsDir, "*.truth.json"))
	for _, name := range names {
		t.Run(filepath.Base(name), func(t *testing.T) {
			b, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			var tr truth
			if err := json.Unmarshal(b, &tr); err != nil {
				t.Fatal(err)
			}
			checkPhases(t, tr)
			checkSets(t, tr)
			checkMiscounts(t, tr)
			checkFaults(t, tr)
		})
	}
}

const cent = 0.0051 // times are rounded to hundredths

func checkPhases(t *testing.T, tr truth) {
	last := 0.6
	for i, p := range tr.Phases {
		if p.Start != last || p.End <= p.Start {
			t.Errorf("phase %d (%s) runs from %v to %v, the one before ended at %v", i+1, p.Kind, p.Start, p.End, last)
		}
		last = p.End
	}
	if last != tr.Duration {
		t.Errorf("the last phase ends at %v of %v", last, tr.Duration)
	}
	for _, r := range tr.Rests {
		if d := r.Actual - (r.End - r.Start); !inside(tr, "rest", r.span) || d < -0.06 || d > 0.06 {
			t.Errorf("rest from %v to %v lasts %v, or is no phase", r.Start, r.End, r.Actual)
		}
	}
}

// inside tells whether a phase of a kind holds a span.
func inside(tr truth, kind string, s span) bool {
	for _, p := range tr.Phases {
		if p.Kind == kind && p.Start-cent <= s.Start && s.End <= p.End+cent {
			return true
		}
	}
	return false
}

func checkSets(t *testing.T, tr truth) {
	last := 0.0
	for _, s := range tr.Sets {
		if !inside(tr, s.Phase, s.span) || s.Start < last-cent {
			t.Errorf("%s (%s) from %v to %v is in no %s phase, or too early", s.ID, s.Exercise, s.Start, s.End, s.Phase)
		}
		last = s.End
		switch d := s.End - s.Start - float64(s.Pace*s.Performed.Reps); {
		case s.Go != nil && (*s.Go < s.Start || *s.Go >= s.End || s.Performed.Seconds == 0):
			t.Errorf("%s: go at %v in %v to %v", s.ID, *s.Go, s.Start, s.End)
		case s.Go == nil && (d < -0.05 || d > 0.05 || s.Performed.Reps == 0):
			t.Errorf("%s: %v repetitions at %v s in %v s", s.ID, s.Performed.Reps, s.Pace, s.End-s.Start)
		}
	}
}

func checkMiscounts(t *testing.T, tr truth) {
	off := map[string]float64{} // repetitions over the dose, as the miscounts say
	for _, m := range tr.Miscounts {
		switch m.Kind {
		case "short", "over":
			off[m.Set] = float64(m.Performed - m.Prescribed)
		case "skipped", "repeated", "jumped-back":
			if m.Said == m.Expected {
				t.Errorf("%s: %d said for %d is no slip", m.Set, m.Said, m.Expected)
			}
		default:
			t.Errorf("%s: unknown miscount %q", m.Set, m.Kind)
		}
	}
	for _, s := range tr.Sets {
		if s.Go == nil && s.Prescribed != nil && s.Performed.Reps-s.Prescribed.Reps != off[s.ID] {
			t.Errorf("%s: %v repetitions of %v, the miscounts say %+v", s.ID, s.Performed.Reps, s.Prescribed.Reps, off[s.ID])
		}
	}
}

func checkFaults(t *testing.T, tr truth) {
	for _, file := range []string{"word", "cue", "block"} {
		list, ok := tr.Faults[file]
		if !ok {
			t.Errorf("no faults listed for %s", file)
		}
		for i, f := range list {
			if f.At < 0 || f.At > tr.Duration+1 || i > 0 && f.At < list[i-1].At {
				t.Errorf("%s: the fault at %v is out of order", file, f.At)
			}
		}
	}
}

// TestMeaning plays counts whose truth is known by hand.
func TestMeaning(t *testing.T) {
	tests := []struct{ dose, count, want string }{
		{"3", "1..3", "3 reps to 3 by 1:"},
		{"3", "3..1", "3 reps to 1 by -1:"},
		{"6", "2..6/2", "6 reps to 6 by 2:"},
		{"10", "5..10/5", "10 reps to 10 by 5:"},
		{"10", "_*4 5 _*4 10", "10 reps to 10 by 5:"},
		{"3", "3 2 1", "3 reps to 1 by -1:"},
		{"4", "_*3 (that's) 4", "4 reps to 4 by 1:"},
		{"3", "1 3", "2 reps to 3 by 1: skipped 3 for 2, short 2 of 3"},
		{"3", "1 2 2 3", "4 reps to 3 by 1: repeated 2 for 3, over 4 of 3"},
		{"4", "4..3 1", "3 reps to 1 by -1: skipped 1 for 2, short 3 of 4"},
		{"6", "1 2 _ _ 3 4", "6 reps to 4 by 1: jumped-back 3 for 5 after silence"},
		{"4", "1 2 !1 2", "4 reps to 2 by 1:"},
		{"5", "1..3 !2 1", "5 reps to 1 by 1:"},
		{"5", "1..3 2 1", "5 reps to 1 by 1: jumped-back 2 for 4, jumped-back 1 for 3"},
		{"4", "1 2 4 {sorry, three =3} 4", "4 reps to 4 by 1: skipped 4 for 3"},
		{"2", "1 2 (one more) _", "3 reps to 2 by 1: over 3 of 2"},
		{"none", "1 2", "2 reps to 2 by 1:"},
		{"4", "_*4", "4 reps to 0 by 1:"},
	}
	for _, tt := range tests {
		script := "seed: 1\n@talk\nHello there.\n@set squats | pace 3 | dose " + tt.dose + "\nGo.\n: " + tt.count + "\n@talk\nGoodbye."
		s, err := author.Parse("x", strings.NewReader(script))
		if err != nil {
			t.Errorf("%s: %v", tt.count, err)
			continue
		}
		session, err := author.Play("x", s)
		if err != nil {
			t.Errorf("%s: %v", tt.count, err)
			continue
		}
		if got := summary(session.Truth); got != tt.want {
			t.Errorf("%s of %s: %q, want %q", tt.count, tt.dose, got, tt.want)
		}
	}
}

// summary writes the first set and the miscounts in a line.
func summary(tr author.Truth) string {
	set, last := tr.Sets[0], 0
	if set.LastNumber != nil {
		last = *set.LastNumber
	}
	var slips []string
	for _, m := range tr.Miscounts {
		switch {
		case m.OffDose != nil:
			slips = append(slips, fmt.Sprintf("%s %d of %d", m.Kind, m.OffDose.Performed, m.OffDose.Prescribed))
		case m.After:
			slips = append(slips, fmt.Sprintf("%s %d for %d after silence", m.Kind, m.Said, m.Expected))
		default:
			slips = append(slips, fmt.Sprintf("%s %d for %d", m.Kind, m.Said, m.Expected))
		}
	}
	head := fmt.Sprintf("%d reps to %d by %d:", set.Performed.Reps, last, set.Step)
	return strings.TrimSpace(head + " " + strings.Join(slips, ", "))
}

// TestFaulty looks for the line that a faulty script is refused for.
func TestFaulty(t *testing.T) {
	tests := []struct {
		script string
		line   int
	}{
		{"title: a\nno key\n", 2},
		{"colour: a\n", 1},
		{"@talk\nHello.\n@dance\n", 3},
		{"@rest soon | lasts 3\n", 1},
		{"@set squats | pace 3\nGo.\n: 1 x\n", 3},
		{"@set squats | pace 3\nGo.\n: 1 2 {good\n", 3},
		{"@set squats | pace 3\nGo.\n: {good} 1\n", 3},
		{"@set squats | pace 3\nGo.\n: 1 (and)\n", 3},
		{"@set squats | pace 3\nGo.\n: 1..3\nThat was good.\n", 4},
		{"@set squats | pace 3\n: 1..3\n", 1},
		{"@set squats | side up | pace 3\nGo.\n: 1..3\n", 1},
		{"@timed plank | dose 30\nGo.\n", 1},
		{"@talk\nHello.\n> 3 Halfway.\n", 3},
		{"@timed plank | lasts 5\nGo.\n> 4 Nearly there, hold on, do not let go.\n", 3},
		{"@talk\nHello.\n@rest 2 | lasts 2\nThese are far more words than fit into a rest as short as that.\n", 3},
		{"@set squats | pace 1\nGo.\n: 1 2 {these are far more words than fit before the next} 3\n", 1},
	}
	for _, tt := range tests {
		_, _, err := author.Render("x.script.txt", []byte(tt.script))
		var syntax *author.SyntaxError
		if !errors.As(err, &syntax) || syntax.Line != tt.line {
			t.Errorf("%q: error %v, want one of line %d", tt.script, err, tt.line)
		}
	}
}
