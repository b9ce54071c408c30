package analyze

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

var update = flag.Bool("update", false, "write what the program gives into the golden files")

// TestGolden compares everything that is computed from a session with what was read and agreed to before.
func TestGolden(t *testing.T) {
	sessions := map[string]*segment.Session{"sample": sample(), "empty": {}}
	wordless := sample()
	wordless.Track = nil
	if r := Measure(wordless, Options{}); len(r.Findings) != len(Measure(sample(), Options{}).Findings) {
		t.Errorf("without a track %d findings are left", len(r.Findings))
	}
	for name, s := range sessions {
		t.Run(name, func(t *testing.T) {
			r := Measure(s, Options{})
			report, err := json.MarshalIndent(r, "", " ")
			if err != nil {
				t.Fatal(err)
			}
			var told, compared strings.Builder
			for _, f := range r.Findings {
				fmt.Fprintf(&told, "%s %s %s %.2f: %s\n", f.ID, f.Kind, f.Cause, f.Probability, f.Text)
				for _, q := range f.Evidence {
					fmt.Fprintf(&told, "   %s “%s”\n", caption.At(q.At), q.Text)
				}
			}
			for _, c := range Compare(r) {
				fmt.Fprintln(&compared, c.Text)
			}
			got := &txtar.Archive{Files: []txtar.File{
				{Name: "verdict", Data: []byte(Verdict(r) + "\n")},
				{Name: "findings", Data: []byte(told.String())},
				{Name: "comparisons", Data: []byte(compared.String())},
				{Name: "report.json", Data: append(report, '\n')},
			}}
			path := filepath.Join("testdata", name+".txtar")
			if *update {
				if err := os.WriteFile(path, txtar.Format(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := txtar.ParseFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if len(want.Files) != len(got.Files) {
				t.Fatalf("%s has %d parts, want %d", path, len(want.Files), len(got.Files))
			}
			for i, f := range got.Files {
				if w := want.Files[i]; w.Name != f.Name || !bytes.Equal(w.Data, f.Data) {
					t.Errorf("%s (-want +got)\n-%s\n+%s", f.Name, w.Data, f.Data)
				}
			}
		})
	}
}

func TestMeasureIsRepeatable(t *testing.T) {
	s := sample()
	first, _ := json.Marshal(Measure(s, Options{}))
	for range 20 {
		if again, _ := json.Marshal(Measure(s, Options{})); !bytes.Equal(first, again) {
			t.Fatal("the same session gave two reports")
		}
	}
}

// TestShift: a session that begins a minute later is the same session a minute later.
func TestShift(t *testing.T) {
	early, late := sample(), sample()
	shift(late, caption.At(60))
	a, b := Measure(early, Options{}), Measure(late, Options{})
	if len(a.Findings) != len(b.Findings) {
		t.Fatalf("%d findings, then %d", len(a.Findings), len(b.Findings))
	}
	for i := range a.Findings {
		if got := round(b.Findings[i].At - a.Findings[i].At); got != 60 {
			t.Errorf("%s moved by %v s, want 60", a.Findings[i].ID, got)
		}
		if a.Findings[i].Probability != b.Findings[i].Probability {
			t.Errorf("%s: probability %v became %v", a.Findings[i].ID, a.Findings[i].Probability, b.Findings[i].Probability)
		}
	}
	if a.Totals.Tension != b.Totals.Tension || a.Totals.Reps != b.Totals.Reps {
		t.Errorf("totals changed: %+v, then %+v", a.Totals, b.Totals)
	}
}

func shift(s *segment.Session, by caption.Time) {
	move := func(x *caption.Spread) { x.At, x.Low, x.High = x.At+by, x.Low+by, x.High+by }
	for i := range s.Track.Words {
		move(&s.Track.Words[i].Time)
	}
	for i := range s.Phases {
		s.Phases[i].Start, s.Phases[i].End = s.Phases[i].Start+by, s.Phases[i].End+by
	}
	for i := range s.Sets {
		x := &s.Sets[i]
		move(&x.Start)
		move(&x.End)
		x.Announced.At += by
		for j := range x.Count {
			move(&x.Count[j].At)
		}
		for j := range x.Slips {
			move(&x.Slips[j].At)
		}
		for j := range x.TimeCues {
			move(&x.TimeCues[j].At)
		}
	}
	for i := range s.Rests {
		move(&s.Rests[i].Start)
		move(&s.Rests[i].End)
		s.Rests[i].At += by
	}
}

// TestRests walks along the edge of the tolerance: the larger of 5 s and 15 %.
func TestRests(t *testing.T) {
	for _, tt := range []struct {
		length, announced float64
		opt               Options
		verdict, finding  string
	}{
		{25, 30, Options{}, "kept", ""},
		{24.9, 30, Options{}, "short", "rest-short"},
		{35, 30, Options{}, "kept", ""},
		{35.1, 30, Options{}, "over", "rest-over"},
		{69, 60, Options{}, "kept", ""},
		{69.1, 60, Options{}, "over", "rest-over"},
		{5, 30, Options{}, "short", "rest-missing"},
		{5.1, 30, Options{}, "short", "rest-short"},
		{90, 0, Options{}, "unstated", ""},
		{33, 30, Options{Lengths: Tolerance{Seconds: 2}}, "over", "rest-over"},
	} {
		b := newBuilder()
		b.rest(10, tt.length, tt.announced)
		r := Measure(&b.Session, tt.opt)
		if got := r.Rests[0].Verdict; got != tt.verdict {
			t.Errorf("rest of %v s for %v announced: %s, want %s", tt.length, tt.announced, got, tt.verdict)
		}
		if got := kinds(r); got != tt.finding {
			t.Errorf("rest of %v s for %v announced: finding %q, want %q", tt.length, tt.announced, got, tt.finding)
		}
	}
}

// TestReps: a range that leaves the announced number likely raises no finding.
func TestReps(t *testing.T) {
	for _, tt := range []struct {
		reps, low, high, announced int
		last                       int // number said
		finding                    string
	}{
		{10, 10, 10, 10, 10, ""},
		{11, 11, 11, 10, 10, "count-over"},
		{9, 9, 9, 10, 10, "count-short"},
		{11, 11, 12, 10, 10, "count-over"},
		{11, 10, 13, 10, 10, "count-over"},
		{11, 9, 11, 10, 10, ""}, // most of the range holds 10
		{10, 9, 13, 10, 10, ""}, // open on one side, but 10 is the likeliest
		{8, 7, 8, 10, 10, "count-short"},
		{7, 7, 7, 10, 7, "dose-unclear"}, // far off, and the count does not aim at ten
		{20, 20, 20, 10, 20, "dose-unclear"},
		{10, 10, 10, 0, 10, ""},
	} {
		b := newBuilder()
		s := b.counted("row", segment.Both, segment.Dose{Reps: tt.announced}, 10, 3, 1, tt.last)
		s.Reps, s.RepsLow, s.RepsHigh = tt.reps, tt.low, tt.high
		r := Measure(&b.Session, Options{})
		if got := kinds(r); got != tt.finding {
			t.Errorf("%d (%d to %d) for %d: %q, want %q", tt.reps, tt.low, tt.high, tt.announced, got, tt.finding)
		}
		if tt.finding != "" && (r.Findings[0].Probability <= 0.5 || r.Findings[0].Probability > 1) {
			t.Errorf("%d (%d to %d) for %d: probability %v", tt.reps, tt.low, tt.high, tt.announced, r.Findings[0].Probability)
		}
	}
}

// TestAimed: a count that goes up to the announced number was meant to have it, however often it went back; one that goes
// beyond it was not.
func TestAimed(t *testing.T) {
	b := newBuilder()
	b.counted("step", segment.Both, segment.Dose{Reps: 5}, 10, 3, 1, 2, 3, 1, 2, 3, 4, 5)
	if got := kinds(Measure(&b.Session, Options{})); got != "count-over" {
		t.Errorf("8 that end at five, for 5: %q, want count-over", got)
	}
	b = newBuilder()
	b.counted("step", segment.Both, segment.Dose{Reps: 5}, 10, 3, 8, 7, 6, 5, 4, 3, 2, 1)
	if got := kinds(Measure(&b.Session, Options{})); got != "dose-unclear" {
		t.Errorf("8 down from eight, for 5: %q, want dose-unclear", got)
	}
	b.Sets[0].Slips = []segment.Slip{{Kind: segment.Repeated, At: b.Sets[0].Count[2].At, First: 2, Last: 3, Said: 7, Expected: 6, Session: 0.9}}
	for i, want := range []string{
		"At 0:19 (step) you probably say 7 twice, a repetition each.", // and nothing of a dose that may not be its own
		"The set at 0:10 (step) has 8 repetitions where 5 seem to be announced. Perhaps the dose was changed, or meant for another set.",
	} {
		if got := Measure(&b.Session, Options{}).Findings[i].Text; got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// TestDisowned: an announcement that most of its sets ignore is no dose of theirs, which is told once; one that a single set exceeds is. By two without aiming at it, that
// is less likely than not.
func TestDisowned(t *testing.T) {
	for _, tt := range []struct {
		sets [][]int
		want string
	}{
		{[][]int{{1, 2, 3, 4, 5}, {1, 2, 3, 4, 5}, {1, 2, 3, 4, 5}}, "dose-unclear"},
		{[][]int{{1, 2, 3}, {1, 2, 3, 4}, {1, 2, 3}}, "count-over"},
		{[][]int{{1, 2, 2, 3}, {1, 2, 3, 3}, {1, 1, 2, 3}}, "count-over count-over count-over"}, // each aims at three
		{[][]int{{1, 2, 3, 4, 5}, {1, 2, 3, 3}}, "count-over dose-unclear"},
	} {
		b := newBuilder()
		d := b.dose(1, "Three of each.", 3, 0)
		for i, numbers := range tt.sets {
			b.counted("row", segment.Both, d, float64(10+40*i), 3, numbers...)
		}
		if got := kinds(Measure(&b.Session, Options{})); got != tt.want {
			t.Errorf("%v: %q, want %q", tt.sets, got, tt.want)
		}
	}
}

// TestSetLengths walks along the edges of the tolerance, and of half and twice what was announced.
func TestSetLengths(t *testing.T) {
	for _, tt := range []struct {
		seconds, announced float64
		finding            string
	}{
		{30, 30, ""}, {25, 30, ""}, {24.9, 30, "time-short"}, {35, 30, ""}, {35.1, 30, "time-over"},
		{15, 30, "time-short"}, {14.9, 30, "dose-unclear"}, {60, 30, "time-over"}, {60.1, 30, "dose-unclear"}, {60, 0, ""},
	} {
		b := newBuilder()
		b.timed(segment.Work, "stretch", segment.Both, segment.Dose{Seconds: tt.announced}, 10, tt.seconds)
		if got := kinds(Measure(&b.Session, Options{})); got != tt.finding {
			t.Errorf("%v s for %v announced: %q, want %q", tt.seconds, tt.announced, got, tt.finding)
		}
	}
}

// TestDoubtWeakens: a wider range never makes a finding more probable, and a length in doubt is nobody's slip for certain.
func TestDoubtWeakens(t *testing.T) {
	last := 1.0
	for _, half := range []float64{0.5, 2, 5, 10, 20} {
		b := newBuilder()
		p := b.rest(10, 40, 30)
		p.Length.Low, p.Length.High = 40-half, 40+half
		r := Measure(&b.Session, Options{})
		if kinds(r) != "rest-over" {
			t.Fatalf("half-width %v: %q", half, kinds(r))
		}
		if got := r.Findings[0].Probability; got > last {
			t.Errorf("half-width %v: probability rose from %v to %v", half, last, got)
		} else {
			last = got
		}
	}
	b := newBuilder()
	p := b.rest(10, 36, 30)
	p.Length.Low, p.Length.High = 30, 37
	if r := Measure(&b.Session, Options{}); kinds(r) != "rest-over" || r.Findings[0].Cause != "unsure" ||
		r.Findings[0].Text != "The rest at 0:10 lasts about 36 seconds (30 to 37); 30 seconds were announced. The times are too rough to tell." {
		t.Errorf("a rest of 36 s (30 to 37) for 30: %+v, want it unsure", r.Findings)
	}
	p.Length.Low, p.Length.High = 10, 37
	if r := Measure(&b.Session, Options{}); kinds(r) != "" {
		t.Errorf("a rest of 36 s (10 to 37) for 30: %+v, want nothing", r.Findings)
	}
}

// TestMisreadAnnouncement: a rest that is far from what was announced long before it was probably meant to be another than one that is
// announced as it begins, and misses it by a little; a rest of a tenth is told of nobody.
func TestMisreadAnnouncement(t *testing.T) {
	told := func(length, announced, before float64) (float64, string) {
		b := newBuilder()
		b.rest(100, length, announced).At = caption.At(100 - before)
		f := Measure(&b.Session, Options{}).Findings
		if len(f) == 0 {
			return 0, ""
		}
		return f[0].Probability, f[0].Text
	}
	near, text := told(20, 30, 0)
	if want := "The rest at 1:40 lasts 20 seconds; 30 seconds were announced."; near <= 0.5 || text != want {
		t.Errorf("20 s for 30: %q with %v, want %q", text, near, want)
	}
	far, text := told(40, 10, 0)
	if want := "The rest at 1:40 lasts 40 seconds; 10 seconds were announced. Perhaps the rest began or ended elsewhere, or that was meant for another."; far > 0.5 || far >= near || text != want {
		t.Errorf("40 s for 10: %q with %v, want %q", text, far, want)
	}
	if p, text := told(300, 10, 0); text != "" {
		t.Errorf("300 s for 10: %q with %v, want nothing", text, p)
	}
}

func TestSlipCauses(t *testing.T) {
	for _, tt := range []struct {
		kind              segment.SlipKind
		session, captions float64
		want, cause       string
	}{
		{segment.Repeated, 0.97, 0.02, "count-repeated", "session"},
		{segment.Repeated, 0.02, 0.97, "caption-doubled", "captions"},
		{segment.Repeated, 0.1, 0.2, "count-repeated", "unsure"},
		{segment.Doubled, 0.97, 0.02, "count-repeated", "session"},
		{segment.Doubled, 0.02, 0.97, "caption-doubled", "captions"},
		{segment.Skipped, 0.97, 0.02, "count-skipped", "session"},
		{segment.Skipped, 0.02, 0.97, "caption-gap", "captions"},
		{segment.Gap, 0.02, 0.97, "caption-gap", "captions"},
		{segment.Gap, 0.97, 0.02, "count-lost", "session"},
		{segment.Restarted, 0.97, 0.02, "count-restarted", "session"},
		{segment.Jumped, 0.97, 0.02, "count-jumped", "session"},
		{segment.Lost, 0.97, 0.02, "count-lost", "session"},
		{segment.Misheard, 0.02, 0.97, "caption-misheard", "captions"},
		{segment.Gap, 0.3, 0.3, "caption-gap", "unsure"},
		{segment.Misheard, 0.97, 0.02, "count-jumped", "session"},
	} {
		b := newBuilder()
		s := b.counted("row", segment.Both, segment.Dose{}, 10, 3, 1, 2, 3, 4)
		s.Slips = []segment.Slip{{Kind: tt.kind, At: s.Count[2].At, First: 2, Last: 3, Said: 9, Expected: 3, Session: tt.session, Captions: tt.captions}}
		f := Measure(&b.Session, Options{}).Findings
		if len(f) != 1 || f[0].Kind != tt.want || f[0].Cause != tt.cause {
			t.Errorf("slip %d with %v session, %v captions: %+v, want %s by %s", tt.kind, tt.session, tt.captions, f, tt.want, tt.cause)
			continue
		}
		if p := f[0].Probability; p > 0.97 || p <= 0.5 && tt.cause != causeUnsure {
			t.Errorf("slip %d: probability %v", tt.kind, p)
		}
		if len(f[0].Evidence) != 3 || f[0].Evidence[0].Text != "2" || f[0].Evidence[2].Text != "4" {
			t.Errorf("slip %d: evidence %+v, want the numbers 2, 3, 4 with their times", tt.kind, f[0].Evidence)
		}
	}
}

// TestJoined: three numbers that the captions write as one word are one place.
func TestJoined(t *testing.T) {
	b := newBuilder()
	s := b.counted("row", segment.Both, segment.Dose{}, 10, 3, 1, 234, 5)
	for _, due := range []int{2, 3, 4} {
		s.Slips = append(s.Slips, segment.Slip{Kind: segment.Misheard, At: s.Count[1].At, First: 1, Last: 2, Said: due, Expected: due, Captions: 0.95})
	}
	f := Measure(&b.Session, Options{}).Findings
	if want := "At 0:16 (row) the captions show “234” where 2, 3 and 4 were due. The session was fine."; len(f) != 1 || f[0].Text != want {
		t.Errorf("got %+v, want one: %s", f, want)
	}
	s.Slips[0].Captions = 0.4
	if want := "At 0:16 (row) the captions show “234” where 2, 3 and 4 were due. The session was probably fine."; Measure(&b.Session, Options{}).Findings[0].Text != want {
		t.Errorf("in doubt: want %s", want)
	}
}

// TestSaidTwice: a number is said twice only where it is the one before; another one in its place is what it is.
func TestSaidTwice(t *testing.T) {
	for _, tt := range []struct {
		numbers []int
		want    string
	}{
		{[]int{1, 2, 3, 3, 4}, "At 0:22 (row) you probably say 3 twice, a repetition each."},
		{[]int{1, 2, 9, 3, 4}, "At 0:22 (row) you probably say 3 where 10 was due."},
	} {
		b := newBuilder()
		s := b.counted("row", segment.Both, segment.Dose{}, 10, 3, tt.numbers...)
		n := s.Count[3]
		s.Slips = []segment.Slip{{Kind: segment.Repeated, At: n.At, First: n.Word, Last: n.Word + 1, Said: 3, Expected: tt.numbers[2] + 1, Session: 0.97, Captions: 0.02}}
		if f := Measure(&b.Session, Options{}).Findings; len(f) != 1 || f[0].Text != tt.want {
			t.Errorf("%v: %+v, want %q", tt.numbers, f, tt.want)
		}
	}
}

// TestUnsureSlips: what may be anybody's is told with both that may have done it.
func TestUnsureSlips(t *testing.T) {
	for _, tt := range []struct {
		kind segment.SlipKind
		due  int
		want string
	}{
		{segment.Gap, 3, "the captions show no 3. You left it out, or the captions did: listen there."},
		{segment.Lost, 0, "the captions show no numbers for a while. You left them out, or the captions did: listen there."},
		{segment.Repeated, 3, "the captions show “3” twice. You may have said it so, or the captions may be wrong: listen there."},
	} {
		b := newBuilder()
		s := b.counted("row", segment.Both, segment.Dose{}, 10, 3, 1, 2, 3, 4)
		s.Slips = []segment.Slip{{Kind: tt.kind, At: s.Count[2].At, First: 2, Last: 3, Said: 3, Expected: tt.due, Session: 0.2, Captions: 0.2}}
		if f := Measure(&b.Session, Options{}).Findings; len(f) != 1 || f[0].Text != "At 0:19 (row) "+tt.want {
			t.Errorf("%d: %+v, want %q", tt.kind, f, tt.want)
		}
	}
}

// TestLongSlip: of many words that stand twice, the first and the last are enough to find them.
func TestLongSlip(t *testing.T) {
	for _, tt := range []struct{ words, want string }{
		{"two, three, four,", "“two, three, four”"},
		{"two, three, for, five, sheets, seven,", "“two, three, for, five, sheets, seven”"},
		{"two, three, for, five, sheets, seven, ate, nine,", "“two, three, for … ate, nine”"},
	} {
		b := newBuilder()
		s := b.counted("row", segment.Both, segment.Dose{}, 10, 3, 1, 2, 3, 4)
		first, last := b.say(20, tt.words)
		s.Slips = []segment.Slip{{Kind: segment.Doubled, At: spread(20, 0.2), First: first, Last: last, Said: 4, Expected: 5, Captions: 0.97}}
		want := "At 0:20 (row) the captions write " + tt.want + " twice, with no time to do it twice. The session was fine."
		if f := Measure(&b.Session, Options{}).Findings; len(f) != 1 || f[0].Text != want {
			t.Errorf("got %+v, want %q", f, want)
		}
	}
}

func TestSides(t *testing.T) {
	last := 1.0
	for _, tt := range []struct {
		name        string
		left, right int
		between     bool // another exercise stands between the two
		want        string
	}{
		{"equal", 8, 8, false, ""},
		{"one fewer", 8, 7, false, "sides-uneven"},
		{"one fewer, far apart", 8, 7, true, "sides-uneven"},
	} {
		b := newBuilder()
		b.counted("Leg push", segment.Left, segment.Dose{}, 10, 3, make([]int, tt.left)...)
		if tt.between {
			b.counted("row", segment.Both, segment.Dose{}, 100, 3, 1, 2, 3)
		}
		b.counted("leg push", segment.Right, segment.Dose{}, 200, 3, make([]int, tt.right)...)
		if got := kinds(Measure(&b.Session, Options{})); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		} else if f := Measure(&b.Session, Options{}).Findings; len(f) > 0 {
			if f[0].Probability >= last {
				t.Errorf("%s: probability %v, not less than %v", tt.name, f[0].Probability, last)
			}
			last = f[0].Probability // sides that are far apart may not belong together
		}
	}
	// where neither of the two is likely to be off the dose of both, they are not likely to differ
	for _, tt := range []struct {
		reps, high int
		want       string
	}{{7, 7, "count-short sides-uneven"}, {6, 6, "dose-unclear"}, {7, 9, ""}} {
		b := newBuilder()
		d := b.dose(1, "Eight a side.", 8, 0)
		b.counted("leg push", segment.Left, d, 10, 3, make([]int, 8)...)
		b.counted("leg push", segment.Right, d, 70, 3, make([]int, tt.reps)...).RepsHigh = tt.high
		if got := kinds(Measure(&b.Session, Options{})); got != tt.want {
			t.Errorf("8 on the left, %d to %d on the right, for eight: %q, want %q", tt.reps, tt.high, got, tt.want)
		}
	}
	// the second round is compared with the second round
	b := newBuilder()
	for i, n := range []int{8, 6, 8, 6} {
		b.counted("hop", []segment.Side{segment.Left, segment.Left, segment.Right, segment.Right}[i], segment.Dose{}, float64(100*i), 1, make([]int, n)...)
	}
	if got := kinds(Measure(&b.Session, Options{})); got != "" {
		t.Errorf("two rounds, equal by round: %q", got)
	}
	b = newBuilder()
	b.timed(segment.Work, "side stretch", segment.Left, segment.Dose{}, 10, 30)
	b.timed(segment.Work, "side stretch", segment.Right, segment.Dose{}, 50, 21)
	if got := kinds(Measure(&b.Session, Options{})); got != "sides-uneven" {
		t.Errorf("30 s and 21 s: %q, want sides-uneven", got)
	}
	b = newBuilder()
	b.timed(segment.Work, "side stretch", segment.Left, segment.Dose{}, 10, 31).Performed.High = 60
	b.timed(segment.Work, "side stretch", segment.Right, segment.Dose{}, 80, 30)
	if got := kinds(Measure(&b.Session, Options{})); got != "" {
		t.Errorf("31 s (to 60) and 30 s: %q, want nothing: what was measured is the same", got)
	}
}

func kinds(r *Report) string {
	var out []string
	for _, f := range r.Findings {
		out = append(out, f.Kind)
	}
	return strings.Join(out, " ")
}
