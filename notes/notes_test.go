package notes

import (
	"encoding/json"
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"captally.example/captally/analyze"
)

// TestEveryLineHasASource also holds every blank to its brackets, and everything in brackets to being a blank.
func TestEveryLineHasASource(t *testing.T) {
	for _, g := range goldens(t) {
		n := Draft(g.report, g.profile)
		lines := append([]Line(nil), n.Lines...)
		for _, topic := range Checklist(g.report, g.profile) {
			lines = append(lines, topic.Lines...)
		}
		for _, l := range lines {
			switch l.Source {
			case Said:
				if l.At == nil {
					t.Errorf("%s: said, but when? %q", g.name, l.Text)
				}
			case Measured, Standing:
			case Blank:
			default:
				t.Errorf("%s: source %q of %q", g.name, l.Source, l.Text)
			}
			if bracketed := strings.HasPrefix(l.Text, "[") && strings.HasSuffix(l.Text, "]"); bracketed != (l.Source == Blank) {
				t.Errorf("%s: %q has source %s", g.name, l.Text, l.Source)
			}
		}
	}
}

// TestSaidWordsStandInTheReport: a draft puts no word into the speaker's mouth.
func TestSaidWordsStandInTheReport(t *testing.T) {
	for _, g := range goldens(t) {
		source, _ := json.Marshal(g.report)
		for _, l := range Draft(g.report, g.profile).Lines {
			if l.Source != Said || l.Part == partExercises {
				continue
			}
			text, _ := json.Marshal(strings.TrimSuffix(l.Text, "."))
			if !strings.Contains(strings.ToLower(string(source)), strings.ToLower(strings.Trim(string(text), `"`))) {
				t.Errorf("%s: %q was not said", g.name, l.Text)
			}
		}
	}
}

// TestPlainLanguage: the draft's own words stay at grade 6 or below, the level that the Am Fam Physician 2015;92(2):118-24
// asks of texts for patients (5th to 6th grade).
func TestPlainLanguage(t *testing.T) {
	for _, g := range goldens(t) {
		r := Readability(Draft(g.report, g.profile))
		if r.Words < 50 {
			t.Errorf("%s: only %d words of its own were measured", g.name, r.Words)
		}
		if r.Grade() > 6 {
			t.Errorf("%s: grade %.1f, want 6 or below", g.name, r.Grade())
		}
	}
}

var vttCue = regexp.MustCompile(`^(\d\d):(\d\d):(\d\d)\.(\d{3}) --> (\d\d):(\d\d):(\d\d)\.(\d{3})$`)

// checkVTT holds a file to what WebVTT asks of it (W3C, w3.org/TR/webvtt1, sections 4.1 and 4.5.1, and the nesting rule of
// 4.6.2): the signature, times in range, an end after each start, starts that do not decrease, one line of text without
// "-->", and no partial overlap.
func checkVTT(file string) error {
	blocks := strings.Split(strings.TrimSuffix(file, "\n"), "\n\n")
	if blocks[0] != "WEBVTT" {
		return fmt.Errorf("begins with %q", blocks[0])
	}
	type span struct{ start, end int }
	var spans []span
	for i, b := range blocks[1:] {
		lines := strings.Split(b, "\n")
		if len(lines) != 3 || lines[0] != strconv.Itoa(i+1) {
			return fmt.Errorf("cue %d: %q", i+1, b)
		}
		m := vttCue.FindStringSubmatch(lines[1])
		if m == nil {
			return fmt.Errorf("cue %d: times %q", i+1, lines[1])
		}
		var x [8]int
		for j := range x {
			x[j], _ = strconv.Atoi(m[j+1])
		}
		if x[1] > 59 || x[2] > 59 || x[5] > 59 || x[6] > 59 {
			return fmt.Errorf("cue %d: minutes or seconds beyond 59", i+1)
		}
		s := span{((x[0]*60+x[1])*60+x[2])*1000 + x[3], ((x[4]*60+x[5])*60+x[6])*1000 + x[7]}
		if s.end <= s.start {
			return fmt.Errorf("cue %d ends before it starts", i+1)
		}
		for _, o := range spans {
			if s.start < o.start {
				return fmt.Errorf("cue %d starts before another", i+1)
			}
			if s.start < o.end && s.end > o.end {
				return fmt.Errorf("cue %d overlaps another in part", i+1)
			}
		}
		if lines[2] == "" || strings.Contains(lines[2], "-->") || strings.Contains(lines[2], "<") {
			return fmt.Errorf("cue %d: text %q", i+1, lines[2])
		}
		spans = append(spans, s)
	}
	return nil
}

// TestCheckVTT: the judge accepts the nested example of the standard's chapter rule and rejects its overlap.
func TestCheckVTT(t *testing.T) {
	tree := [][2]float64{{0, 84}, {0, 44}, {44, 79}, {84, 300}, {95, 180}, {180, 300}}
	overlap := [][2]float64{{0, 60}, {30, 90}}
	file := func(spans [][2]float64) string {
		var cues []cue
		for _, s := range spans {
			cues = append(cues, cue{s[0], s[1], "x"})
		}
		return string(webvtt(cues))
	}
	if err := checkVTT(file(tree)); err != nil {
		t.Errorf("the standard's tree: %v", err)
	}
	if checkVTT(file(overlap)) == nil {
		t.Error("the standard's overlap was accepted")
	}
	if err := checkVTT(string(webvtt([]cue{{3599.9996, 3661.5, "a & b --> <i>\n\nc"}}))); err != nil {
		t.Errorf("awkward text and times: %v", err)
	}
}

func TestChapters(t *testing.T) {
	set := func(id int, exercise, phase string, start, end float64) analyze.Set {
		return analyze.Set{ID: fmt.Sprintf("s%d", id), Exercise: exercise, Phase: phase, Start: start, End: end}
	}
	phase := func(kind string, start, end float64) analyze.Phase {
		return analyze.Phase{Kind: kind, Start: start, End: end}
	}
	for _, tt := range []struct {
		name   string
		phases []analyze.Phase
		sets   []analyze.Set
		want   string
	}{
		{"rounds", []analyze.Phase{phase("talk", 0, 60), phase("warm-up", 60.9, 120), phase("work", 120, 150), phase("work", 160, 190), phase("work", 200, 230), phase("cool-down", 230, 300), phase("talk", 300, 330)},
			[]analyze.Set{set(1, "row", "work", 122, 150), set(2, "press", "work", 161, 190), set(3, "rows", "work", 201, 230)},
			"0 Welcome; 60 Warm-up; 120 Row; 160 Press; 200 Row, round 2; 230 Cool-down; 300 Closing words"},
		{"sets in a row are one chapter", []analyze.Phase{phase("talk", 0, 60), phase("work", 60, 90), phase("rest", 90, 120), phase("work", 120, 150)},
			[]analyze.Set{set(1, "row", "work", 60, 90), set(2, "row", "work", 120, 150)},
			"0 Welcome; 60 Row; 105 Row, continued"},
		{"warm-up at once", []analyze.Phase{phase("talk", 0, 4), phase("warm-up", 4, 60), phase("work", 60, 90), phase("talk", 90, 95)},
			[]analyze.Set{set(1, "row", "work", 60, 90)},
			"0 Warm-up; 30 Warm-up, continued; 60 Row"},
		{"two short ones share a chapter", []analyze.Phase{phase("talk", 0, 50), phase("work", 50, 56), phase("work", 57, 90)},
			[]analyze.Set{set(1, "row", "work", 50, 56), set(2, "press", "work", 57, 90)},
			"0 Welcome; 25 Welcome, continued; 50 Row and press"},
		{"an exercise stays before a cool-down that is too close", []analyze.Phase{phase("talk", 0, 50), phase("work", 50, 56), phase("cool-down", 56, 90)},
			[]analyze.Set{set(1, "row", "work", 50, 56)},
			"0 Welcome; 25 Welcome, continued; 50 Row"},
		{"warm-up moves are no chapters", []analyze.Phase{phase("talk", 0, 50), phase("warm-up", 50, 120)},
			[]analyze.Set{set(1, "shrug", "warm-up", 60, 90)},
			"0 Welcome; 50 Warm-up; 85 Warm-up, continued"},
	} {
		r := &analyze.Report{Phases: tt.phases, Sets: tt.sets, Source: analyze.Source{Duration: tt.phases[len(tt.phases)-1].End}}
		var got []string
		for _, c := range chapters(r) {
			got = append(got, fmt.Sprintf("%g %s", c.Start, c.Title))
		}
		if s := strings.Join(got, "; "); s != tt.want {
			t.Errorf("%s:\n got %s\nwant %s", tt.name, s, tt.want)
		}
	}
}

// TestChaptersAreValid: first at 0, rising by ten seconds or more, none empty, and a file that the standard accepts.
func TestChaptersAreValid(t *testing.T) {
	for _, g := range goldens(t) {
		n := Draft(g.report, g.profile)
		for i, c := range n.Chapters {
			if i == 0 && c.Start != 0 || i > 0 && c.Start-n.Chapters[i-1].Start < minChapter || c.Title == "" {
				t.Errorf("%s: chapter %d: %+v", g.name, i, c)
			}
		}
		if g.report.Source.Duration >= 4*minChapter && len(n.Chapters) < fewestChapter {
			t.Errorf("%s: only %d chapters", g.name, len(n.Chapters))
		}
		if err := checkVTT(string(Chapters(n))); err != nil {
			t.Errorf("%s: chapters: %v", g.name, err)
		}
		if err := checkVTT(string(Overlay(n))); err != nil {
			t.Errorf("%s: overlay: %v", g.name, err)
		}
	}
}

func TestDose(t *testing.T) {
	for _, tt := range []struct {
		sets []Dose
		want string
	}{
		{[]Dose{{Reps: 10}}, "10 times"},
		{[]Dose{{Reps: 1}}, "once"},
		{[]Dose{{Seconds: 30}}, "30 seconds"},
		{[]Dose{{Seconds: 60}}, "1 minute"},
		{[]Dose{{Seconds: 90}}, "90 seconds"},
		{[]Dose{{Reps: 15}, {Reps: 15}}, "2 sets of 15"},
		{[]Dose{{Seconds: 20}, {Seconds: 20}}, "2 sets of 20 seconds"},
		{[]Dose{{Reps: 10}, {Reps: 8}, {Reps: 6}}, "3 sets of 10, 8 and 6"},
		{[]Dose{{Seconds: 40}, {Seconds: 60}}, "2 sets of 40 seconds and 1 minute"},
		{[]Dose{{Seconds: 60}, {Reps: 10}}, "2 sets (1 minute, 10 times)"},
		{[]Dose{{Reps: 10}, {}}, "2 sets, the first of 10"},
		{[]Dose{{}}, ""},
		{nil, ""},
	} {
		if got := (wording{}).dose(tt.sets); got != tt.want {
			t.Errorf("%v: %q, want %q", tt.sets, got, tt.want)
		}
	}
}

func TestLead(t *testing.T) {
	for in, want := range map[string]string{
		"And if you're on oxygen, leave it on": "if you're on oxygen, leave it on",
		"Right, so, the scale":                 "the scale",
		"android phones":                       "android phones",
		"So":                                   "So",
		"":                                     "",
	} {
		if got := lead(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}

// TestUnclearDose: a dose that may belong to another exercise is asked for, not printed. One that the count comes near is printed, unless it
// was said for others as well, which did not follow it either.
func TestUnclearDose(t *testing.T) {
	at := 10.0
	for _, tt := range []struct {
		done int
		also []string
		want string
	}{
		{5, nil, "- Row.\n  In the video it is 5 times.\n  [how many, or how long? is it 12 times?]\n"},
		{9, nil, "- Row.\n  In the video it is 9 times.\n  [how many, or how long? is it 12 times?]\n"},
		{10, nil, "- Row: 12 times.\n"},
		{14, nil, "- Row: 12 times.\n"},
		{10, []string{"s2"}, "- Row.\n  In the video it is 10 times.\n  [how many, or how long? is it 12 times?]\n"},
	} {
		r := &analyze.Report{
			Sets: []analyze.Set{{ID: "s1", Exercise: "row", Phase: "work", Start: 20, Prescribed: &analyze.Dose{Reps: 12}, PrescribedAt: &at,
				Performed: analyze.Performed{Reps: &tt.done, RepsLow: &tt.done, RepsHigh: &tt.done}}},
			Findings: []analyze.Finding{{ID: "f1", Kind: "dose-unclear", Cause: "unsure", Set: "s1", Also: tt.also, Probability: 1}},
		}
		if got := Draft(r, Profile{}).Text; !strings.Contains(got, tt.want) {
			t.Errorf("%d done: got %s\nwant %s in it", tt.done, got, tt.want)
		}
	}
}

// TestRawCaptions: a draft from what a recogniser left begins with the request to check it; others do not.
func TestRawCaptions(t *testing.T) {
	for _, raw := range []bool{true, false} {
		n := Draft(&analyze.Report{Source: analyze.Source{Raw: raw}}, Profile{})
		if got := strings.Contains(n.Text, "[nobody has put these captions right"); got != raw || raw && (n.Lines[1].Source != Blank || n.Lines[1].Part != partTitle) {
			t.Errorf("raw %v: %q", raw, n.Text)
		}
	}
}

func TestExercises(t *testing.T) {
	ten, eight := &analyze.Dose{Reps: 10}, &analyze.Dose{Reps: 8}
	set := func(exercise, side string, d *analyze.Dose) analyze.Set {
		return analyze.Set{Exercise: exercise, Phase: "work", Side: side, Prescribed: d}
	}
	for _, tt := range []struct {
		name string
		sets []analyze.Set
		want string // exercise/side: doses
	}{
		{"left and right are one set", []analyze.Set{set("curl", "left", ten), set("curl", "right", ten)}, "curl/each [10]"},
		{"two rounds", []analyze.Set{set("curl", "left", ten), set("curl", "right", ten), set("curl", "left", eight), set("curl", "right", eight)}, "curl/each [10 8]"},
		{"all left, then all right", []analyze.Set{set("curl", "left", ten), set("curl", "left", ten), set("curl", "right", ten), set("curl", "right", ten)}, "curl/each [10 10]"},
		{"one form of the name", []analyze.Set{set("Heel raise", "both", ten), set("heel raises", "", ten)}, "Heel raise/ [10 10]"},
		{"a circuit", []analyze.Set{set("row", "both", ten), set("press", "both", ten), set("row", "both", eight)}, "row/ [10 8]; press/ [10]"},
		{"a dose said for the right only", []analyze.Set{set("curl", "left", nil), set("curl", "right", ten)}, "curl/each [10]"},
		{"no name", []analyze.Set{set("", "left", ten), set("", "right", ten), set("row", "both", ten), set("", "both", eight)}, "/each [10]; row/ [10]; / [8]"},
		{"the other side, named in part", []analyze.Set{set("gentle fist", "left", ten), set("hand gentle fist", "right", ten)}, "gentle fist/each [10]"},
		{"the other side, one word misheard", []analyze.Set{set("seated need bend", "left", ten), set("seated knee bend", "right", ten)}, "seated need bend/each [10]"},
		{"another exercise of the same kind", []analyze.Set{set("single leg stand", "right", ten), set("staggered stand", "left", ten)}, "single leg stand/right [10]; staggered stand/left [10]"},
		{"the other side in another phase", []analyze.Set{set("curl", "left", ten), {Exercise: "curls", Phase: "balance", Side: "right"}}, "curl/each [10]"},
		{"the other side, not named", []analyze.Set{set("curl", "left", ten), set("", "right", nil)}, "curl/each [10]"},
		{"another exercise on the other side", []analyze.Set{set("curl", "left", ten), set("row", "right", ten)}, "curl/left [10]; row/right [10]"},
		{"a shorter name right after", []analyze.Set{set("single leg heel raises", "left", ten), set("single leg heel raises", "right", ten), set("heel raises", "left", ten), set("heel raises", "right", ten)}, "single leg heel raises/each [10 10]"},
		{"the same words on both legs are another exercise", []analyze.Set{set("single leg heel raise", "left", ten), set("heel raise", "both", ten)}, "single leg heel raise/left [10]; heel raise/ [10]"},
		{"a fuller name with another dose", []analyze.Set{set("marching", "both", ten), set("seated marching", "both", eight)}, "marching/ [10]; seated marching/ [8]"},
		{"a fuller name in the second round", []analyze.Set{set("pull apart", "both", ten), set("openers", "both", ten), set("pull apart", "both", eight), set("knee openers", "both", eight)}, "pull apart/ [10 8]; openers/ [10 8]"},
		{"a fuller name elsewhere", []analyze.Set{set("openers", "both", ten), set("pull apart", "both", eight), set("knee openers", "both", eight)}, "openers/ [10]; pull apart/ [8]; knee openers/ [8]"},
		{"the name of most sets", []analyze.Set{set("gentle knee bend", "left", ten), set("knee bend", "right", ten), set("knee bend", "right", ten)}, "knee bend/each [10 10]"},
		{"one side only", []analyze.Set{set("curl", "right", ten)}, "curl/right [10]"},
	} {
		var got []string
		for _, e := range exercises(&analyze.Report{Sets: tt.sets}) {
			var reps []int
			for _, d := range e.Sets {
				reps = append(reps, d.Reps)
			}
			got = append(got, fmt.Sprintf("%s/%s %v", e.Name, e.Side, reps))
		}
		if s := strings.Join(got, "; "); s != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, s, tt.want)
		}
	}
}

func TestCorrections(t *testing.T) {
	n := func(x int) *int { return &x }
	f := func(x float64) *float64 { return &x }
	counted := analyze.Set{ID: "s1", Exercise: "curl", Side: "left", Start: 10, Prescribed: &analyze.Dose{Reps: 10}, Performed: analyze.Performed{Reps: n(11), RepsLow: n(11), RepsHigh: n(11)},
		Count: []analyze.Count{{Number: 6, At: 20}, {Number: 7, At: 23}, {Number: 7, At: 23.4, Origin: "caption-repeat"}, {Number: 9, At: 26}, {Number: 9, At: 29}, {Number: 5, At: 32}}}
	wide := counted
	wide.ID, wide.Performed = "s4", analyze.Performed{Reps: n(11), RepsLow: n(10), RepsHigh: n(12)}
	r := &analyze.Report{
		Sets: []analyze.Set{counted,
			{ID: "s2", Exercise: "curl", Side: "right", Start: 60, Prescribed: &analyze.Dose{Reps: 10}},
			{ID: "s3", Start: 100, Prescribed: &analyze.Dose{Seconds: 30}, Performed: analyze.Performed{Seconds: f(21.4)}}, wide,
			{ID: "s5", Start: 200, Prescribed: &analyze.Dose{Seconds: 45}, Performed: analyze.Performed{Seconds: f(60.2)}}},
		Rests: []analyze.Rest{{ID: "r1", Prescribed: f(30), Length: analyze.Range{Value: 12}}, {ID: "r2", Prescribed: f(90), Length: analyze.Range{Value: 60}}},
	}
	for _, tt := range []struct {
		findings []analyze.Finding
		want     string
	}{
		{[]analyze.Finding{{Kind: "count-repeated", Set: "s1", At: 29}}, "At 0:29 the count says nine twice. Do ten in all."},
		{[]analyze.Finding{{Kind: "count-repeated", Set: "s1", At: 32}}, "At 0:32 the count goes from nine to five. Do ten in all."},
		{[]analyze.Finding{{Kind: "count-skipped", Set: "s1", At: 26}}, "At 0:26 the count leaves out eight. Do ten in all."},
		{[]analyze.Finding{{Kind: "count-restarted", Set: "s1", At: 32}}, "At 0:32 the count goes from nine to five. Do ten in all."},
		{[]analyze.Finding{{Kind: "count-lost", Set: "s1", At: 32}}, "At 0:32 the count stops while the moves go on. Do ten in all."},
		{[]analyze.Finding{{Kind: "count-repeated", Set: "s1", At: 50}}, "At 0:50 the count is wrong. Do ten in all."},
		{[]analyze.Finding{{Kind: "count-over", Set: "s1", At: 32}}, "At 0:10 the set has eleven, not ten. Do ten in all."},
		{[]analyze.Finding{{Kind: "count-over", Set: "s4", At: 32}}, "At 0:10 the set has about eleven, not ten. Do ten in all."},
		{[]analyze.Finding{{Kind: "count-over", Set: "s1", At: 32}, {Kind: "count-repeated", Set: "s1", At: 29}, {Kind: "sides-uneven", Set: "s2", At: 60}}, "At 0:29 the count says nine twice. Do ten in all."},
		{[]analyze.Finding{{Kind: "sides-uneven", Set: "s2", At: 60}}, "At 1:00 one side gets more than the other. Do the same on both sides."},
		{[]analyze.Finding{{Kind: "time-short", Set: "s3", At: 100}}, "At 1:40 the set ends after 21 seconds. Go on to 30."},
		{[]analyze.Finding{{Kind: "time-over", Set: "s3", At: 100}}, "At 1:40 the set goes on for 21 seconds. You may stop at 30."},
		{[]analyze.Finding{{Kind: "time-over", Set: "s5", At: 200}}, "At 3:20 the set goes on for 60 seconds. You may stop at 45."},
		{[]analyze.Finding{{Kind: "rest-short", Rest: "r2", At: 300}}, "At 5:00 the rest is 60 seconds, not 90. Pause the video to rest longer."},
		{[]analyze.Finding{{Kind: "rest-short", Rest: "r1", At: 40}}, "At 0:40 the rest is 12 seconds, not 30. Pause the video to rest longer."},
		{[]analyze.Finding{{Kind: "rest-missing", Rest: "r1", At: 40}}, "At 0:40 a rest of 30 seconds is due. Pause the video to take it."},
		{[]analyze.Finding{{Kind: "rest-over", Rest: "r1", At: 40}}, ""},
		{[]analyze.Finding{{Kind: "time-cue-off", Set: "s3", At: 110}}, ""},
		{[]analyze.Finding{{Kind: "count-repeated", Set: "s1", At: 29, Cause: "captions"}}, ""},
		{[]analyze.Finding{{Kind: "count-repeated", Set: "s1", At: 29, Probability: 0.7}}, ""},
		{[]analyze.Finding{{Kind: "count-repeated", Set: "s1", At: 29}, {Kind: "dose-unclear", Set: "s1", Cause: "unsure"}}, "At 0:29 the count says nine twice."},
		{[]analyze.Finding{{Kind: "count-repeated", Set: "s1", At: 29, Cause: "unsure"}}, ""},
	} {
		r.Findings = tt.findings
		for i := range r.Findings {
			if r.Findings[i].Cause == "" {
				r.Findings[i].Cause = "session"
			}
			if r.Findings[i].Probability == 0 {
				r.Findings[i].Probability = 0.9
			}
		}
		var got []string
		for _, c := range corrections(r, wording{}) {
			got = append(got, c.Text)
		}
		if s := strings.Join(got, " | "); s != tt.want {
			t.Errorf("%v:\n got %q\nwant %q", tt.findings, s, tt.want)
		}
	}
}

// TestCautionsComeInOrder: what was said first, the clinician's word last, an emergency number right after the signs that
// may need it, and a source with each published sign.
func TestCautionsComeInOrder(t *testing.T) {
	r := &analyze.Report{Session: analyze.About{Cautions: []analyze.Quote{{Text: "no cracking anything", At: 9}}}}
	got := cautions(r, Profile{Emergency: "112", Cautions: []StandingCaution{{Text: "Check the band."}}})
	if got[0].Source != Said || got[0].At == nil || got[1].Text != "Check the band." {
		t.Errorf("first come %+v, %+v", got[0], got[1])
	}
	if !strings.Contains(got[2].Text, "chest") || !strings.Contains(got[3].Text, "112") {
		t.Errorf("the sign and its number: %q, %q", got[2].Text, got[3].Text)
	}
	for _, c := range got[2:6] {
		if c.Reference == "" {
			t.Errorf("%q has no source", c.Text)
		}
	}
	if last := got[len(got)-1].Text; !strings.Contains(last, "your own doctor or therapist") {
		t.Errorf("last comes %q", last)
	}
	if plain := cautions(r, Profile{}); !strings.Contains(plain[2].Text, "your local emergency number") {
		t.Errorf("without a number: %q", plain[2].Text)
	}
}

func TestReadProfile(t *testing.T) {
	p, err := ReadProfile("me.toml", []byte("clinic = \"Harbour Lane\"\n[headings]\nwho = \"For whom\"\n[[cautions]]\ntext = \"Check the band\"\nsource = \"its maker\"\n"))
	if err != nil || p.Clinic != "Harbour Lane" || p.Headings.Who != "For whom" || p.Headings.withDefaults().Need != "What you need" || p.Cautions[0].Source != "its maker" {
		t.Errorf("%+v, %v", p, err)
	}
	for _, tt := range []struct{ text, want string }{
		{"clinic = \"a\"\nclinik = \"b\"\n", `me.toml:2: a profile has no "clinik"`},
		{"[headings]\nwho = \"x\"\n\nwhy = \"y\"\n", `me.toml:4: a profile has no "headings.why"`},
		{"clinic = \"a\"\n\n[colours]\nred = 1\n", `me.toml:3: a profile has no "colours"`},
		{"clinic = \"a\nqualification = 1\n", "me.toml:1: "},
		{"clinic = \"a\"\nqualification = 7\n", "me.toml:2: text in quotes was expected here"},
		{"[[cautions]]\nsource = \"x\"\n", "me.toml:1: caution 1 has no text"},
		{"[headings]\nwho = \"x\"\n\n[[cautions]]\ntext = \"a\"\nwho = \"y\"\n", `me.toml:6: a profile has no "cautions.who"`},
		{"# a profile\nlanguage = \"en-AU\"\n", `me.toml:2: language is "en-GB" or "en-US", not "en-AU"`},
		{"units = \"kg\"\n", `me.toml:1: units is "long" or "short", not "kg"`},
		{"[[levels]]\nname = \"a\"\nsays = [\"b\"]\n[[levels]]\nsays = [\"c\"]\n", "me.toml:4: level 2 needs a name"},
	} {
		if _, err := ReadProfile("me.toml", []byte(tt.text)); err == nil || !strings.HasPrefix(err.Error(), tt.want) {
			t.Errorf("%q: %v, want %s", tt.text, err, tt.want)
		}
	}
}

// TestChecklists: CERT has 16 items, three of them in two halves; TIDieR has 12. Items that only the therapist knows stay
// open.
func TestChecklists(t *testing.T) {
	for _, g := range goldens(t) {
		count := map[string]int{}
		for _, topic := range Checklist(g.report, Profile{}) {
			count[topic.Checklist]++
			open := false
			for _, l := range topic.Lines {
				open = open || l.Source == Blank
			}
			if len(topic.Lines) == 0 || topic.Filler != ByCaptions && !open {
				t.Errorf("%s: %s %s has no blank: %+v", g.name, topic.Checklist, topic.Number, topic.Lines)
			}
		}
		if count[CERT] != 19 || count[TIDieR] != 12 {
			t.Errorf("%s: %v, want 19 of CERT and 12 of TIDieR", g.name, count)
		}
	}
}

// TestHandout: one page, well nested, with a language, one title, no heading level left out, and nothing loaded from
// elsewhere (WCAG 2.2, success criteria 1.3.1, 2.4.2, 2.4.6, 3.1.1).
func TestHandout(t *testing.T) {
	for _, g := range goldens(t) {
		page, err := Handout(Draft(g.report, g.profile))
		if err != nil {
			t.Fatal(err)
		}
		doc, err := html.Parse(strings.NewReader(string(page)))
		if err != nil {
			t.Fatal(err)
		}
		count := map[string]int{}
		for n := range doc.Descendants() {
			if n.Type != html.ElementNode {
				continue
			}
			count[n.Data]++
			for _, a := range n.Attr {
				if a.Key == "src" || a.Key == "href" || a.Key == "onclick" {
					t.Errorf("%s: %s with %s=%q", g.name, n.Data, a.Key, a.Val)
				}
				if n.Data == "html" && a.Key == "lang" && a.Val == "en-GB" {
					count["lang"]++
				}
			}
		}
		if count["lang"] != 1 || count["title"] != 1 || count["h1"] != 1 || count["main"] != 1 || count["h2"] < 5 || count["script"]+count["link"]+count["img"] != 0 {
			t.Errorf("%s: %v", g.name, count)
		}
		n := Draft(g.report, g.profile)
		sets := 0
		for _, e := range n.Exercises {
			if e.Phase == "work" || e.Phase == "balance" {
				sets += len(e.Sets)
			}
		}
		if count["td"] != sets*fortnight || len(n.Exercises) > 0 && count["h3"] != len(n.Exercises) {
			t.Errorf("%s: %d boxes for %d sets, %d of %d exercises", g.name, count["td"], sets, count["h3"], len(n.Exercises))
		}
		for _, p := range n.Lines {
			if p.Source == Standing && p.Part == partCautions && !strings.Contains(string(page), html.EscapeString(p.Text)) {
				t.Errorf("%s: the hand-out lacks %q", g.name, p.Text)
			}
		}
	}
}

// TestAwkwardText: what was said is text, in every form.
func TestAwkwardText(t *testing.T) {
	r := &analyze.Report{
		Source:  analyze.Source{Duration: 100},
		Session: analyze.About{Title: &analyze.Quote{Text: "<script>alert(1)</script> --> *a*\n\n# b"}},
		Sets:    []analyze.Set{{ID: "s1", Exercise: "row <b> --> x\n\ny", Phase: "work", Start: 20, End: 50}},
	}
	n := Draft(r, Profile{})
	page, err := Handout(n)
	if err != nil || strings.Contains(string(page), "<script>") {
		t.Errorf("the hand-out has a script: %v", err)
	}
	if err := checkVTT(string(Chapters(n))); err != nil {
		t.Errorf("chapters: %v", err)
	}
	if md := Markdown(n); strings.Contains(md, "*a*") || strings.Contains(md, "<script>") || strings.Contains(md, "\n# b") {
		t.Errorf("the Markdown has marks that were said: %s", md[:80])
	}
	if strings.Contains(n.Text, "\n# b") {
		t.Error("a title of two lines stays two lines in the text")
	}
}

func TestDraftIsRepeatable(t *testing.T) {
	for _, g := range goldens(t) {
		first, _ := json.Marshal(Draft(g.report, g.profile))
		for range 10 {
			if again, _ := json.Marshal(Draft(g.report, g.profile)); string(again) != string(first) {
				t.Fatalf("%s: two drafts of one report differ", g.name)
			}
		}
	}
}

// TestProfileExample: the profile that is handed out says nothing as it is, and every line of it is right when its mark is
// taken away.
func TestProfileExample(t *testing.T) {
	if p, err := ReadProfile("example", ProfileExample()); err != nil || !reflect.DeepEqual(p, Profile{}) {
		t.Errorf("as it is: %+v, %v", p, err)
	}
	var lines []string
	for _, line := range strings.Split(string(ProfileExample()), "\n") {
		if bare := strings.TrimPrefix(line, "# "); strings.Contains(bare, " = ") || strings.HasPrefix(bare, "[") {
			lines = append(lines, bare)
		}
	}
	p, err := ReadProfile("example", []byte(strings.Join(lines, "\n")))
	if err != nil {
		t.Fatal(err)
	}
	v := reflect.ValueOf(p)
	for i := range v.NumField() {
		if v.Field(i).IsZero() {
			t.Errorf("the example does not show %s", v.Type().Field(i).Name)
		}
	}
	if p.Headings != (Headings{}).withDefaults() {
		t.Errorf("the headings shown are not the usual ones: %+v", p.Headings)
	}
}

// TestProfileWords: the profile's level, units and names of exercises stand in the draft; what was said stays as it was.
func TestProfileWords(t *testing.T) {
	at := 5.0
	dose := &analyze.Dose{Seconds: 30}
	r := &analyze.Report{
		Source:  analyze.Source{Duration: 300},
		Session: analyze.About{Level: &analyze.Quote{Text: "for people who walk with or without a stick", At: 3}},
		Sets: []analyze.Set{
			{ID: "s1", Exercise: "Chair stand", Phase: "work", Start: 20, End: 50, Prescribed: dose, PrescribedAt: &at},
			{ID: "s2", Exercise: "get-ups", Phase: "work", Start: 80, End: 110, Prescribed: dose, PrescribedAt: &at},
		},
	}
	p := Profile{
		Units: "short", Exercises: map[string]string{"chair stands": "Sit to stand", "get-up": "Sit to stand"},
		Levels: []Level{{"Green", []string{"a stick"}}, {"Blue", []string{"WITH or without a stick"}}, {"Red", []string{"a frame"}}},
	}
	n := Draft(r, p)
	for _, want := range []string{"- Our level: Blue.\n", "- Sit to stand: 2 sets of 30 s.\n", "It takes about 5 min in all.", "- For people who walk with or without a stick.\n", "0:20 Sit to stand\n"} {
		if !strings.Contains(n.Text, want) {
			t.Errorf("no %q in\n%s", want, n.Text)
		}
	}
	if len(n.Exercises) != 1 || r.Sets[0].Exercise != "Chair stand" {
		t.Errorf("exercises %+v of %+v", n.Exercises, r.Sets)
	}
}

// TestAmerican: the draft's own words follow the profile's language; a browser is told which it is.
func TestAmerican(t *testing.T) {
	for _, tt := range []struct{ language, lang, tick, home string }{
		{"", "en-GB", "Tick a box", "Home programme"}, {"en-US", "en-US", "Check a box", "Home program "},
	} {
		p := Profile{Language: tt.language}
		page, err := Handout(Draft(&analyze.Report{}, p))
		if err != nil {
			t.Fatal(err)
		}
		if text := string(page); !strings.Contains(text, `<html lang="`+tt.lang+`">`) || !strings.Contains(text, tt.tick) {
			t.Errorf("%q: the hand-out is not in %s", tt.language, tt.lang)
		}
		if text := ChecklistText(Checklist(&analyze.Report{}, p)); !strings.Contains(text, tt.home) {
			t.Errorf("%q: no %q in the checklist", tt.language, tt.home)
		}
	}
}
