package notes

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/net/html"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// own are all words that the draft may write of its own accord, in any form, beside the standing cautions. A word that is not
// here, was not said and is no measured figure was invented.
const own = `a about after again all and announced another as at avoid between both box boxes by called chapters check clinic closing confirm continued cool count
counted day days do does down due each effort ends enough every exercise exercises feel first for from get gets go goes hard has how if in is it its
keep know leaves left length less line long longer many may measured minute minutes more moves much need not note nothing now number of often on once
one or other our out pause people please reps rest round s safe same says second seconds set sets should side sides signs start stop stops take takes
teaches tension than that the their then therapist they this tick time times to training turns twice two under up video warm warning was way week weeks
welcome what when which while who why words wrong you your
against captions here most nobody put right said seems these warnings`

// standingWords are the words of the standing lines.
func standingWords(p Profile) map[string]bool {
	out := map[string]bool{}
	for _, c := range cautions(&analyze.Report{}, p) {
		addWords(out, c.Text+" "+c.Reference)
	}
	addWords(out, "(Warning signs after: )")
	return out
}

func addWords(set map[string]bool, text string) {
	for _, w := range plainWords(text) {
		set[w] = true
	}
}

// plainWords cuts a text into lower-case words and figures, without marks.
func plainWords(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) })
}

// A witness knows what was said and measured in one session.
type witness struct {
	said    string          // all words of the captions, one blank between them and at both ends
	words   map[string]bool // the same one by one
	named   map[string]bool // the words of the exercises' names, which a misheard name may have found by their sound
	figures map[int]bool    // that were announced or measured, as whole numbers
	clocks  map[string]bool
}

func newWitness(t *caption.Track, r *analyze.Report) *witness {
	w := &witness{words: map[string]bool{}, named: map[string]bool{}, figures: map[int]bool{}, clocks: map[string]bool{}}
	var all []string
	for _, x := range t.Words {
		all = append(all, plainWords(x.Text)...)
	}
	w.said = " " + strings.Join(all, " ") + " "
	for _, x := range all {
		w.words[x] = true
	}
	figure := func(x float64) { w.figures[int(math.Round(x))] = true }
	length := func(s float64) {
		figure(s)
		if math.Mod(math.Round(s), 60) == 0 {
			figure(s / 60)
		}
	}
	when := func(s float64) { w.clocks[clock(s)], w.clocks[clock(math.Floor(s))] = true, true }
	for i, s := range r.Sets {
		figure(float64(i + 1)) // sets and exercises are counted
		when(s.Start)
		addWords(w.named, s.Exercise)
		if s.Prescribed != nil {
			figure(float64(s.Prescribed.Reps))
			length(s.Prescribed.Seconds)
		}
		if s.Performed.Reps != nil {
			figure(float64(*s.Performed.Reps))
		}
		if s.Performed.Seconds != nil {
			length(*s.Performed.Seconds)
		}
		for _, c := range s.Count {
			figure(float64(c.Number))
			figure(float64(c.Number + 1)) // the number that a count leaves out
		}
	}
	for _, x := range r.Rests {
		length(x.Length.Value)
		if x.Prescribed != nil {
			length(*x.Prescribed)
		}
	}
	for _, x := range r.Findings {
		when(x.At)
	}
	for _, p := range r.Phases {
		when(p.Start)
	}
	for _, s := range []float64{r.Source.Duration, r.Totals.WarmUp, r.Totals.CoolDown} {
		figure(s / 60)
	}
	w.clocks["0:00"] = true
	return w
}

// heard says whether a text stands in the captions word for word.
func (w *witness) heard(text string) bool {
	return strings.Contains(w.said, " "+strings.Join(plainWords(text), " ")+" ")
}

var clockPattern = regexp.MustCompile(`\b\d+(:\d\d)+\b`)

// unknown returns the words of a text that are neither the draft's own, nor said, nor measured, nor among some others. A figure
// that was only said will do where quoted is true.
func (w *witness) unknown(text string, quoted bool, also map[string]bool) []string {
	var out []string
	for _, c := range clockPattern.FindAllString(text, -1) {
		if !w.clocks[c] && !(quoted && w.heard(c)) {
			out = append(out, c)
		}
	}
	for _, x := range plainWords(clockPattern.ReplaceAllString(text, " ")) {
		n, number := numeral.Single(x)
		switch {
		case number && (w.figures[n] || quoted && w.words[x]), also[x], w.named[x]:
		case number:
			out = append(out, x)
		case !w.words[x] && !slices.Contains(ownWords, x):
			out = append(out, x)
		}
	}
	return out
}

var ownWords = strings.Fields(own)

// fewWords are how many of the draft's own words stand before what was said in a line: "Another way:".
var fewWords = regexp.MustCompile(`^(Another way: )`)

// TestNothingIsInvented: for each labelled session and each kind of captions, every line that says it was said stands in the
// captions word for word; every figure of the other lines was announced or measured; and in no form does a word stand
// that was not said, is not of the draft's own few words, and is no standing caution.
func TestNothingIsInvented(t *testing.T) {
	standing := standingWords(Profile{})
	var sessions []corpus.Session
	for _, group := range [][]corpus.Session{corpus.Sessions(), corpus.Recognised(), corpus.More(), corpus.MoreRecognised()} {
		sessions = append(sessions, group...)
	}
	lines := 0
	for _, s := range sessions {
		for _, f := range s.Files() {
			tr, r := reportOf(t, f)
			w := newWitness(tr, r)
			n := Draft(r, Profile{})
			for _, l := range n.Lines {
				lines++
				w.line(t, f.Name, l, standing)
			}
			for form, text := range everyForm(t, n) {
				if bad := w.unknown(text, true, standing); len(bad) > 0 {
					t.Errorf("%s as %s: %q were neither said nor measured", f.Name, form, bad)
				}
			}
		}
	}
	if lines < 1000 {
		t.Errorf("only %d lines were looked at", lines)
	}
}

func (w *witness) line(t *testing.T, name string, l Line, standing map[string]bool) {
	t.Helper()
	switch {
	case l.Source == Said && (l.Part != partExercises || l.Form == Detail):
		if text := fewWords.ReplaceAllString(l.Text, ""); !w.heard(text) {
			t.Errorf("%s: %q was not said", name, text)
		}
	case l.Source == Standing:
	default:
		if bad := w.unknown(l.Text, false, nil); len(bad) > 0 {
			t.Errorf("%s: %q: %q were neither said nor measured", name, l.Text, bad)
		}
	}
}

// everyForm returns the text that a reader sees in each form.
func everyForm(t *testing.T, n *Notes) map[string]string {
	t.Helper()
	page, err := Handout(n)
	if err != nil {
		t.Fatal(err)
	}
	object, err := json.Marshal(n.Exercises)
	if err != nil {
		t.Fatal(err)
	}
	var names []struct{ Name string }
	if err := json.Unmarshal(object, &names); err != nil {
		t.Fatal(err)
	}
	times := regexp.MustCompile(`(?m)^(WEBVTT|\d+|[\d:.]+ --> [\d:.]+)$`)
	return map[string]string{
		"text": Text(n), "markdown": Markdown(n), "handout": visibleText(t, page), "json": fmt.Sprint(names),
		"chapters": times.ReplaceAllString(html.UnescapeString(string(Chapters(n))), ""),
		"overlay":  times.ReplaceAllString(html.UnescapeString(string(Overlay(n))), ""),
	}
}

// visibleText returns the text of a page but for its style and the days that are printed over the boxes.
func visibleText(t *testing.T, page []byte) string {
	t.Helper()
	doc, err := html.Parse(strings.NewReader(string(page)))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for x := range doc.Descendants() {
		if x.Type == html.TextNode && x.Parent.Data != "style" && x.Parent.Data != "th" {
			b.WriteString(x.Data + "\n")
		}
	}
	return b.String()
}
