package segment

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"captally.example/captally/segment/caption"
)

// saidTrack makes a track of lines "start end words", in seconds.
func saidTrack(t *testing.T, lines string) *caption.Track {
	t.Helper()
	var b strings.Builder
	for i, line := range strings.Split(strings.TrimSpace(lines), "\n") {
		var start, end float64
		if _, err := fmt.Sscan(line, &start, &end); err != nil {
			t.Fatal(line, err)
		}
		words := strings.Join(strings.Fields(line)[2:], " ")
		stamp := func(s float64) string {
			return fmt.Sprintf("00:%02d:%02d,%03d", int(s)/60, int(s)%60, int(s*1000+0.5)%1000)
		}
		fmt.Fprintf(&b, "%d\n%s --> %s\n%s\n\n", i+1, stamp(start), stamp(end), words)
	}
	tr, err := caption.Parse([]byte(b.String()), "said.srt", caption.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return tr
}

const (
	before = "0 4 The next one is the tandem stand, one foot in front of the other.\n4.2 8 Hold on to the chair if you need to, and look straight ahead.\n"
	after  = " Have a seat, everybody, and get your breath back for a bit.\n"
)

func TestTimedSets(t *testing.T) {
	for _, c := range []struct {
		name, lines string
		want        []float64 // starts and ends of timed sets, seconds
		counted     int
	}{
		{"thirty seconds", before + "9 12 Left foot in front, thirty seconds. And go.\n27 28.5 Halfway.\n33 34.5 Ten more seconds.\n42 46 And rest." + after, []float64{12, 42}, 0},
		{"the other side, as long", before + "9 12 Left foot in front, thirty seconds. And go.\n33 34.5 Ten more seconds.\n42 46 And rest." + after[:len(after)-1] + "\n52 55 Other side, right foot in front. And go.\n70 71 Halfway.\n85 90 And rest." + after, []float64{12, 42, 55, 85}, 0},
		{"seconds counted aloud", before + "9 12 Left foot in front, fifteen seconds, I'll count. And go.\n13 16 One, two, three,\n16 19 four, five, six,\n19 22 seven, eight, nine,\n22 25 ten, eleven, twelve,\n25 28 thirteen, fourteen, fifteen.\n28.5 33 And rest." + after, []float64{12, 28}, 0},
		{"a rest is none", before + "9 12 Ten of them, and go.\n12.5 14 One.\n15.5 17 Two.\n18.5 20 Three.\n21.5 23 Four.\n24.5 26 Five.\n27.5 29 Six.\n30.5 32 Seven.\n33.5 35 Eight.\n36.5 38 Nine.\n39.5 41 Ten.\n41.5 44 And rest for thirty seconds.\n72 76 Lovely, that's your rest over, well done.\n", nil, 1},
	} {
		x := newText(saidTrack(t, c.lines))
		var got []float64
		counted := 0
		for _, s := range x.chosen() {
			if s.run != nil {
				counted++
				continue
			}
			got = append(got, s.start, s.end)
		}
		ok := len(got) == len(c.want) && counted == c.counted
		for i := range got {
			ok = ok && math.Abs(got[i]-c.want[i]) < 1.5
		}
		if !ok {
			t.Errorf("%s: want timed sets %v and %d counted ones, got %.1f and %d", c.name, c.want, c.counted, got, counted)
		}
	}
}

func TestTimeCueThatIsWrong(t *testing.T) {
	tr := saidTrack(t, before+"9 12 Left foot in front, thirty seconds. And go.\n32 33.5 Ten more seconds.\n48 52 And rest."+after)
	x := newText(tr)
	var sets []Set
	for _, s := range x.chosen() {
		if s.run == nil {
			sets = append(sets, x.timedSet(&s))
		}
	}
	if len(sets) != 1 || len(sets[0].TimeCues) != 1 {
		t.Fatalf("want one set with one remark on the time, got %+v", sets)
	}
	s, c := sets[0], sets[0].TimeCues[0]
	if c.Said != 10 || math.Abs(c.Actual-16) > 1 {
		t.Errorf("want 10 s said and 16 s left, got %v and %.1f", c.Said, c.Actual)
	}
	if s.Performed.Low > 36 || s.Performed.High < 36 || s.Performed.High-s.Performed.Low > 20 {
		t.Errorf("36 s should lie in a range of some seconds, got %+v", s.Performed)
	}
}

// Ends that compete widen the range; one that is out of the question does not.
func TestLengthBelief(t *testing.T) {
	x := newText(saidTrack(t, before+"9 12 Thirty seconds, and go.\n30 31 Good.\n42 46 And rest."+after))
	at := func(word string) int {
		for i := range x.w {
			if x.w[i].fold == word {
				return i
			}
		}
		t.Fatal(word)
		return 0
	}
	first, good, rest := at("go")+1, at("good"), at("rest")
	a := way{first: first, last: rest, start: x.w[first-1].end, end: x.w[rest].t, score: 2}
	b := way{first: first, last: good, start: a.start, end: 33, score: 1.5}
	s := stretch{first: a.first, last: a.last, start: a.start, end: a.end, ways: []way{a}, best: 2}
	alone := x.lengthBelief(&s)
	s.ways = []way{a, b}
	both := x.lengthBelief(&s)
	s.ways[1].score = -9
	unlikely := x.lengthBelief(&s)
	if !(alone.Low <= alone.Value && alone.Value <= alone.High && math.Abs(alone.Value-(a.end-a.start)) < 1) {
		t.Errorf("alone: %+v for %.1f s", alone, a.end-a.start)
	}
	if both.Low > alone.Low-5 || both.Value != alone.Value {
		t.Errorf("a competing end must widen the range only: %+v, alone %+v", both, alone)
	}
	if math.Abs(unlikely.Low-alone.Low) > 0.5 {
		t.Errorf("an unlikely end must not count: %+v, alone %+v", unlikely, alone)
	}
}

// The weights were fitted on these sessions: the figures say that nothing has broken, not how new sessions fare.
func TestTimedSetsOfTheCorpus(t *testing.T) {
	least := map[string]float64{"word.vtt": 0.90, "cue.srt": 0.88, "block.txt": 0.80} // share found
	most := map[string]int{"word.vtt": 13, "cue.srt": 10, "block.txt": 18}            // others
	for _, style := range []string{"word.vtt", "cue.srt", "block.txt"} {
		sets, found, wrong := 0, 0, 0
		for _, dir := range []string{"../corpus/sessions", "../corpus/more"} {
			files, _ := filepath.Glob(filepath.Join(dir, "*."+style))
			for _, f := range files {
				n, m, k := matchTimed(t, dir, strings.TrimSuffix(filepath.Base(f), "."+style), style)
				sets, found, wrong = sets+n, found+m, wrong+k
			}
		}
		if sets < 90 || float64(found) < least[style]*float64(sets) || wrong > most[style] {
			t.Errorf("%s: %d of %d timed sets found, %d others", style, found, sets, wrong)
		}
	}
}

// matchTimed returns how many timed sets a session has, how many of them share two fifths of their time with a chosen one, and
// how many chosen ones there are besides in its main part where there is no set at all.
func matchTimed(t *testing.T, dir, session, style string) (sets, found, wrong int) {
	truth := truthOf(t, dir, session)
	x := newText(parseTrack(t, filepath.Join(dir, session+"."+style)))
	used := map[int]bool{}
	chosen := x.chosen()
	for _, s := range truth.Sets {
		if s.Performed.Seconds == 0 || s.Phase == "warm-up" || s.Phase == "cool-down" {
			continue
		}
		sets++
		for i, c := range chosen {
			both := min(c.end, s.End) - max(c.start, s.Go)
			if c.run == nil && !used[i] && both >= 0.4*(max(c.end, s.End)-min(c.start, s.Go)) {
				used[i] = true
				found++
				break
			}
		}
	}
	for i, c := range chosen {
		if c.run != nil || used[i] {
			continue
		}
		inMain := true
		for _, p := range truth.Phases {
			if mid := (c.start + c.end) / 2; (p.Kind == "warm-up" || p.Kind == "cool-down") && mid >= p.Start && mid < p.End {
				inMain = false
			}
		}
		for _, s := range truth.Sets { // of repetitions that nobody counts
			inMain = inMain && min(c.end, s.End)-max(c.start, s.Start) < 0.4*(max(c.end, s.End)-min(c.start, s.Start))
		}
		if inMain {
			wrong++
		}
	}
	return sets, found, wrong
}
