package notes

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// track reads captions that a test has written.
func track(t *testing.T, src string) *caption.Track {
	t.Helper()
	tr, err := caption.Parse([]byte(src), "test.srt", caption.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return tr
}

// cue is a SubRip file of one caption.
func srt(lines string) string { return "7\n00:00:10,120 --> 00:00:19,500 X1:20\n" + lines + "\n" }

func TestCaptions(t *testing.T) {
	repair := func(kind string, first, last int, numbers ...int) analyze.Repair {
		return analyze.Repair{Kind: kind, First: first, Last: last, Numbers: numbers, Probability: 0.9}
	}
	for _, c := range []struct {
		name, in, want string
		repair         analyze.Repair
		left           string // why it is left alone
	}{
		{"a run that stands twice goes once", "One, two, <i>three,</i> two, three, four.", "One, two, <i>three,</i> four.", repair("doubled", 3, 5), ""},
		{"a word takes the words of its neighbours", "one two free four", "one two three four", repair("misheard", 2, 3, 3), ""},
		{"or their figures", "1, 2, free, 4", "1, 2, 3, 4", repair("misheard", 2, 3, 3), ""},
		{"a capital stays", "One two three. For five", "One two three. Four five", repair("misheard", 3, 4, 4), ""},
		{"two words give way to one number", "eleven twelve search mean fourteen", "eleven twelve thirteen fourteen", repair("misheard", 2, 4, 13), ""},
		{"a joined number is parted", "16 17 1819 20", "16 17 18 19 20", repair("joined", 2, 3, 18, 19), ""},
		{"a dropped number goes between its neighbours", "1, 2, 4, 5", "1, 2, 3, 4, 5", repair("dropped", 2, 2, 3), ""},
		{"counting down too", "ten nine seven six", "ten nine eight seven six", repair("dropped", 2, 2, 8), ""},
		{"a dropped number with talk in its place is left", "one two chest up four", "", repair("dropped", 4, 4, 3), "its place is not certain"},
		{"a dropped number over a line's end is put at the end", "one two\nfour five", "one two three\nfour five", repair("dropped", 2, 2, 3), ""},
		{"a remark on the number is no second number", "four five six, six done, so six to go", "", repair("doubled", 3, 4), "it may belong to the words after it"},
		{"nor one that does not follow at once", "eight nine ten, last ten eleven", "", repair("doubled", 4, 5), "they do not follow the same number at once"},
		{"talk among the numbers is nobody's to delete", "two three two come on three", "", repair("doubled", 2, 6), "there are other words among the numbers"},
	} {
		t.Run(c.name, func(t *testing.T) {
			src := srt(c.in)
			tr := track(t, src)
			out, changes, err := Captions([]byte(src), tr, &analyze.Report{Repairs: []analyze.Repair{c.repair}}, SureEnoughToChange)
			if err != nil {
				t.Fatal(err)
			}
			want := srt(c.want)
			if c.want == "" {
				want = src
			}
			if string(out) != want || len(changes) != 1 || changes[0].Left != c.left {
				t.Errorf("got %q, %+v\nwant %q, left %q", out, changes, want, c.left)
			}
		})
	}
}

func TestCaptionsBelowTheThreshold(t *testing.T) {
	src := srt("one two free four")
	tr := track(t, src)
	r := &analyze.Report{Repairs: []analyze.Repair{{Kind: "misheard", At: 11, Line: 3, Written: []string{"free"}, First: 2, Last: 3, Numbers: []int{3}, Probability: 0.79}}}
	for least, want := range map[float64]string{SureEnoughToChange: src, 0.7: srt("one two three four")} {
		if out, _, err := Captions([]byte(src), tr, r, least); err != nil || string(out) != want {
			t.Errorf("from %v on: %q, %v, want %q", least, out, err, want)
		}
	}
	text := ChangesText(Changes(tr, r, SureEnoughToChange))
	if want := "Nothing is changed.\n\nLeft alone:\n    0:11  line 3     “free” becomes “three”  (79% sure; not sure enough)\n"; text != want {
		t.Errorf("got  %q\nwant %q", text, want)
	}
}

// TestCaptionsWithTimesOnWords: a word that goes away takes its tags' text with it and no time moves.
func TestCaptionsWithTimesOnWords(t *testing.T) {
	src := "WEBVTT\n\nNOTE mine\n\n00:01.000 --> 00:09.000 align:start\n<00:01.000><c>one</c> <00:03.000><c>won</c> <00:05.000><c>three</c>\n"
	tr := track(t, src)
	r := &analyze.Report{Repairs: []analyze.Repair{
		{Kind: "misheard", First: 1, Last: 2, Numbers: []int{2}, Probability: 1},
		{Kind: "dropped", First: 2, Last: 2, Numbers: []int{2}, Probability: 1},
	}}
	out, changes, err := Captions([]byte(src), tr, r, SureEnoughToChange)
	if want := strings.Replace(src, "won", "two", 1); err != nil || string(out) != want || changes[1].Left != "its place is not certain" {
		t.Errorf("got %q, %+v, %v", out, changes, err)
	}
}

func TestCaptionsOfATranscript(t *testing.T) {
	src := "[0:05] one two free four\n[0:30] and rest\n"
	tr := track(t, src)
	if out, _, err := Captions([]byte(src), tr, &analyze.Report{}, SureEnoughToChange); !errors.Is(err, caption.ErrSplice) || out != nil {
		t.Errorf("got %q, %v, want %v", out, err, caption.ErrSplice)
	}
}

// TestCaptionsOfTheCorpus sets each change of the labelled sessions' captions beside the list of what the captioner got
// wrong: of the changes at least nine in ten are of a listed fault. Outside the changed lines no byte differs, and
// what was corrected reads as a file whose times are the same.
func TestCaptionsOfTheCorpus(t *testing.T) {
	made, right, faults := 0, 0, 0
	for _, s := range append(corpus.Sessions(), corpus.More()...) {
		if s.Truth.Faults == nil {
			continue
		}
		for _, f := range []struct {
			corpus.File
			faults []corpus.Fault
		}{{s.Word, s.Truth.Faults.Word}, {s.Cue, s.Truth.Faults.Cue}} {
			tr, err := caption.Parse(f.Data, f.Name, caption.Options{})
			if err != nil {
				t.Fatal(err)
			}
			out, changes, err := Captions(f.Data, tr, analyze.Measure(segment.Decode(tr), analyze.Options{}), SureEnoughToChange)
			if err != nil {
				t.Errorf("%s: %v", f.Name, err)
				continue
			}
			lines := map[int]bool{}
			for _, c := range changes {
				if c.Left != "" {
					continue
				}
				lines[c.Line] = true
				made++
				if listed(c, f.faults) {
					right++
				} else {
					t.Logf("%s: %s line %d: %s is no listed fault", f.Name, clock(c.At), c.Line, changed(c))
				}
			}
			for _, x := range f.faults {
				if x.Kind != "dropped" {
					faults++
				}
			}
			untouched(t, f.Name, f.Data, out, lines)
		}
	}
	t.Logf("%d changes, %d of them of a listed fault; %d faults are listed beside dropped numbers", made, right, faults)
	if made < 50 || right*10 < made*9 {
		t.Errorf("%d of %d changes are of a listed fault, want nine in ten of 50 or more", right, made)
	}
}

// listed says whether a change puts right one of the listed faults: one near it in time, in whose words or numbers it is.
func listed(c CaptionChange, faults []corpus.Fault) bool {
	for _, x := range faults {
		if math.Abs(x.At-c.At) > 8 {
			continue
		}
		n, _ := numeral.Single(strings.ToLower(c.Text))
		switch x.Kind {
		case "doubled":
			if c.Text == "" {
				return true
			}
		case "joined":
			if strings.Contains(c.Text, " ") {
				return true
			}
		default:
			if n == x.Number && (x.Kind == "dropped") == (c.Written == "") {
				return true
			}
		}
	}
	return false
}

// untouched wants the same lines in both files but those that were changed, and the lines next to them where a change went
// over the line's end.
func untouched(t *testing.T, name string, before, after []byte, changed map[int]bool) {
	t.Helper()
	a, b := bytes.Split(before, []byte("\n")), bytes.Split(after, []byte("\n"))
	if len(a) != len(b) {
		t.Errorf("%s: %d lines became %d", name, len(a), len(b))
		return
	}
	for i := range a {
		near := false
		for d := -16; d <= 16; d++ { // a run can go over two captions, and one that rolls up shows a line thrice
			near = near || changed[i+1+d]
		}
		if !bytes.Equal(a[i], b[i]) && (!near || bytes.Contains(a[i], []byte("-->"))) {
			t.Errorf("%s:%d: %q became %q", name, i+1, a[i], b[i])
		}
	}
}
