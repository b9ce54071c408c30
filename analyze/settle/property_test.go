package settle

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"math/rand"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// decoded reads the files of the corpus, by name.
func decoded(t testing.TB) map[string]*segment.Session {
	t.Helper()
	out := map[string]*segment.Session{}
	for _, s := range corpus.Sessions() {
		for _, f := range s.Files() {
			track, err := caption.Parse(f.Data, f.Name, caption.Options{})
			if err != nil {
				t.Fatal(err)
			}
			out[f.Name] = segment.Decode(track)
		}
	}
	return out
}

func printed(t testing.TB, v any) string {
	t.Helper()
	data, err := json.MarshalIndent(v, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// sound says what is wrong with a settled session, "" for nothing.
func sound(s *Settled, length float64) string {
	r := s.Report
	at := 0.0
	for i, p := range r.Phases {
		if p.Start != at || p.End <= p.Start {
			return fmt.Sprintf("phase %d (%s) goes from %v to %v behind %v", i, p.Kind, p.Start, p.End, at)
		}
		at = p.End
	}
	if at != length {
		return fmt.Sprintf("the phases end at %v of %v", at, length)
	}
	sum := r.Totals.Work + r.Totals.Rest + r.Totals.Balance + r.Totals.WarmUp + r.Totals.CoolDown + r.Totals.Talk
	// A decoded set may begin a little before its phase, or end behind it; nothing is ever missing.
	if len(r.Phases) > 0 && (sum < length-0.01*float64(len(r.Phases)+1) || sum > length+5) {
		return fmt.Sprintf("the totals are %v of %v seconds", sum, length)
	}
	for i, x := range r.Sets {
		if x.End <= x.Start || x.Tension.Low > x.Tension.Value || x.Tension.High < x.Tension.Value {
			return fmt.Sprintf("set %d: from %v to %v, tension %v", i, x.Start, x.End, x.Tension)
		}
		if p := x.Performed; p.Reps != nil && (*p.RepsLow > *p.Reps || *p.RepsHigh < *p.Reps) {
			return fmt.Sprintf("set %d: %d repetitions of %d to %d", i, *p.Reps, *p.RepsLow, *p.RepsHigh)
		}
		rep := 0
		for _, c := range x.Count {
			if c.Rep > 0 && c.Rep < rep {
				return fmt.Sprintf("set %d: repetition %d behind %d", i, c.Rep, rep)
			}
			rep = max(rep, c.Rep)
		}
	}
	for i, x := range r.Rests {
		if x.End <= x.Start || i > 0 && x.Start < r.Rests[i-1].End-0.001 || math.Abs(x.Length.Value-(x.End-x.Start)) > 0.5 {
			return fmt.Sprintf("rest %d from %v to %v lasts %v", i, x.Start, x.End, x.Length.Value)
		}
	}
	return ""
}

func TestNothingDecided(t *testing.T) {
	for name, s := range decoded(t) {
		want := analyze.Measure(s, analyze.Options{})
		for _, d := range []*Decisions{nil, {}, {Made: []Decision{{ID: 1, Kind: NoteText, Form: "text", Text: "edited"}}}} {
			if got := Apply(s, d, analyze.Options{}); !reflect.DeepEqual(got.Report, want) || len(got.Unfit) > 0 {
				t.Errorf("%s: a report without decisions differs from the measured one", name)
			}
		}
	}
}

func told(d *Decisions) string {
	var lines []string
	for _, x := range d.Made {
		lines = append(lines, x.Describe())
	}
	return strings.Join(lines, "\n")
}

// anyDecision makes a decision about something in a report, or now and then about nothing there.
func anyDecision(r *rand.Rand, report *analyze.Report) Decision {
	x := Decision{Kind: []Kind{Said, Captions, NotSo, Number, Name, Side, Dose, Edge, Merge, Split, Add, Remove}[r.Intn(12)]}
	if x.onFinding() {
		x.Finding = &FindingRef{Kind: "count-short", At: 1}
		if n := len(report.Findings); n > 0 {
			x.Finding = FindingOf(report, report.Findings[r.Intn(n)])
		}
		return x
	}
	length := report.Source.Duration
	set := analyze.Set{Start: 10, End: 20}
	if n := len(report.Sets); n > 0 {
		set = report.Sets[r.Intn(n)]
	}
	x.Set = SetOf(set)
	switch x.Kind {
	case Number, Dose:
		if x.Reps = 1 + r.Intn(20); r.Intn(2) == 0 {
			x.Reps, x.Seconds = 0, 5+float64(r.Intn(60))
		}
	case Name:
		x.Name, x.Everywhere = "another name", r.Intn(2) == 0
	case Side:
		x.Side = []string{"left", "right", "both", ""}[r.Intn(4)]
	case Edge:
		x.Edge, x.At = []string{"start", "end"}[r.Intn(2)], math.Abs(set.Start+r.NormFloat64()*30)
		if n := len(report.Phases); r.Intn(2) == 0 && n > 0 {
			p := report.Phases[r.Intn(n)]
			x.Set, x.Phase, x.At = nil, PhaseOf(p), math.Abs(p.End+r.NormFloat64()*20)
		}
	case Split:
		x.At = set.Start + r.Float64()*(set.End-set.Start)
	case Add:
		x.Set, x.Name, x.Reps = nil, "a missed set", r.Intn(10)
		x.Start = r.Float64() * length
		x.End = x.Start + 2 + r.Float64()*30
	}
	return x
}

// Whatever is decided, in whatever order, leaves a sound session, the one that was decoded unchanged, and the same decisions the same.
func TestAnyDecisions(t *testing.T) {
	r := rand.New(rand.NewSource(6))
	used := map[Kind]int{}
	sessions := decoded(t)
	for _, name := range slices.Sorted(maps.Keys(sessions)) {
		s := sessions[name]
		before, length := printed(t, s), analyze.Measure(s, analyze.Options{}).Source.Duration
		if n := len(s.Phases); n > 0 {
			length = s.Phases[n-1].End.Seconds()
		}
		if wrong := sound(Apply(s, nil, analyze.Options{}), length); wrong != "" {
			t.Fatalf("%s, undecided: %s", name, wrong)
		}
		d := &Decisions{}
		for range 25 {
			x := anyDecision(r, Apply(s, d, analyze.Options{}).Report)
			if err := d.Add(x); err != nil {
				continue // such as a split at the very start
			}
			got := Apply(s, d, analyze.Options{})
			if wrong := sound(got, length); wrong != "" {
				t.Fatalf("%s: %s\nafter %s", name, wrong, told(d))
			}
			if fits := len(got.Unfit) == 0 || got.Unfit[len(got.Unfit)-1].Decision.ID != d.Made[len(d.Made)-1].ID; fits {
				used[x.Kind]++
			}
		}
		a, b := Apply(s, d, analyze.Options{}), Apply(s, d, analyze.Options{})
		if printed(t, a) != printed(t, b) {
			t.Errorf("%s: the same decisions, and different figures", name)
		}
		if printed(t, s) != before {
			t.Fatalf("%s: the decoded session was changed", name)
		}
		again, err := Parse("x", Encode(d))
		if err != nil || printed(t, again.Made) != printed(t, d.Made) {
			t.Errorf("%s: written and read again the decisions differ (%v)", name, err)
		}
	}
	for _, k := range []Kind{Said, Captions, NotSo, Number, Name, Side, Dose, Edge, Merge, Split, Add, Remove} {
		if used[k] < 3 {
			t.Errorf("only %d decisions of the kind %s fit; the test hardly tries it", used[k], k)
		}
	}
}

// long repeats a session until it has so many sets.
func long(s *segment.Session, sets int) *segment.Session {
	out := *s
	period := s.Phases[len(s.Phases)-1].End
	for n := caption.Time(1); len(out.Sets) < sets; n++ {
		by := n * period
		later := func(x caption.Spread) caption.Spread {
			x.At, x.Low, x.High = x.At+by, x.Low+by, x.High+by
			return x
		}
		for _, x := range s.Sets {
			own(&x)
			x.Start, x.End = later(x.Start), later(x.End)
			for i := range x.Count {
				x.Count[i].At = later(x.Count[i].At)
			}
			for i := range x.Slips {
				x.Slips[i].At = later(x.Slips[i].At)
			}
			out.Sets = append(out.Sets[:len(out.Sets):len(out.Sets)], x)
		}
		for _, x := range s.Rests {
			x.Start, x.End = later(x.Start), later(x.End)
			out.Rests = append(out.Rests[:len(out.Rests):len(out.Rests)], x)
		}
		for _, x := range s.Phases {
			x.Start, x.End = x.Start+by, x.End+by
			out.Phases = append(out.Phases[:len(out.Phases):len(out.Phases)], x)
		}
	}
	return &out
}

// longSettled is a session of 200 sets with some hundred decisions.
func longSettled(t testing.TB) (*segment.Session, *Decisions) {
	s := long(decoded(t)["hip-clinic-hour.word.vtt"], 200)
	r := analyze.Measure(s, analyze.Options{})
	d := &Decisions{}
	for i, x := range r.Sets {
		if i%2 == 0 {
			_ = d.Add(Decision{Kind: Number, Reps: 7, Set: SetOf(x)})
		}
	}
	for i, f := range r.Findings {
		if i%2 == 0 {
			_ = d.Add(Decision{Kind: []Kind{Said, Captions, NotSo}[i%3], Finding: FindingOf(r, f)})
		}
	}
	if len(r.Sets) < 200 || len(d.Made) < 100 {
		t.Fatalf("%d sets, %d decisions", len(r.Sets), len(d.Made))
	}
	return s, d
}

func BenchmarkApply(b *testing.B) {
	s, d := longSettled(b)
	for b.Loop() {
		Apply(s, d, analyze.Options{})
	}
	b.ReportMetric(float64(len(s.Sets)), "sets")
	b.ReportMetric(float64(len(d.Made)), "decisions")
}

// A session of 200 sets with a hundred decisions or more is measured anew in less than 50 ms, so that the figures follow a key at once. The best
// of some tries counts, for other programs may be in the way.
func TestApplyIsFast(t *testing.T) {
	s, d := longSettled(t)
	best := time.Hour
	for range 10 {
		start := time.Now()
		Apply(s, d, analyze.Options{})
		best = min(best, time.Since(start))
	}
	if best > 50*time.Millisecond {
		t.Errorf("it took %v", best)
	}
}
