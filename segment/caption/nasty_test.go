package caption

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// nasty lists the small files in testdata/nasty, each of which breaks some reader, with what a careful person reads in them.
// words: text, then @ and the time in s where the file gives it, then / and the speaker. warn: line and a part of the text.
var nasty = []struct {
	file, format, timing string
	words                string
	events               string // joined by |
	warn                 string // joined by |
}{
	{"angle-in-text.srt", "subrip", "cue", "keep@1 it 90 degrees then three if@3 a<b then four five@5 six seven", "", ""},
	{"arrow-in-text.srt", "subrip", "cue", "lift@1 hold lower and@4 two", "", ""},
	{"arrow-without-end.srt", "subrip", "cue", "ten@1 eleven@5", "", "2 without an end"},
	{"blank-line-in-cue.srt", "subrip", "cue", "one@1 two three@3 3@5", "", "6 empty line inside a cue"},
	{"capitals-note-in-cue.vtt", "webvtt", "cue", "NOTE@1 THE KNEE THREE FOUR STYLE@5 IT OUT FIVE SIX", "", ""},
	{"end-before-start.srt", "subrip", "cue", "one@1 two three@5 four@6 five@7 six@9", "",
		"10 begins before the one above|2 ends before it starts|6 of no length|10 lasts beyond"},
	{"entities.vtt", "webvtt", "cue", "hips@1 knees 90 that's one two", "", ""},
	{"frames.ttml", "ttml", "", "one@60.5005 two@70", "", "1 lasts beyond"},
	{"header-with-title.vtt", "webvtt", "cue", "one@1", "", "2 X-TIMESTAMP-MAP"},
	{"hours-start-at-10.srt", "subrip", "cue", "one@1 two@4", "", "2 10:00:00; the whole hours are taken off"},
	{"huge-times.srt", "subrip", "", "one@0 four@6039", "", "2 below zero|6 beyond 24 hours|14 above 59"},
	{"index-missing.srt", "subrip", "cue", "seven@1 eight@3 9@5 10@7", "", ""},
	{"karaoke.ass", "ssa", "", "one@1/Coach two@2/Coach three@3.2/Coach four/Coach five/Coach", "", ""},
	{"latin1.srt", "subrip", "cue", "naïve@1 café that’s one", "", "3 Windows-1252"},
	{"nested-times.ttml", "ttml", "", "one@111 two@115 three@117", "", ""},
	{"no-end.ttml", "ttml", "cue", "one@1 two@4", "", ""},
	{"no-header.vtt", "webvtt", "cue", "one@1 two@3", "", "1 no WEBVTT line"},
	{"odd-characters.srt", "subrip", "cue",
		"twenty‑one@1 twenty‐two ２３ ٢٤ २५ ➀@4 ② Ⅲ ½ 4️⃣ 10½ one@6 two three four five", "", "7 doubtful"},
	{"pop-on-repeat-is-real.srt", "subrip", "cue", "five@10 six seven@11.6 seven@14 eight@16.1", "", ""},
	{"region-block.vtt", "webvtt", "cue", "one@1 two@4", "", ""},
	{"region-word.vtt", "webvtt", "cue", "Region@1 lower back one two three@5", "", ""},
	{"rollup-no-word-times.srt", "subrip", "cue", "and@10 one two three@12.51 four five", "", ""},
	{"rollup-true-repeat.vtt", "webvtt", "word", "seven@10 eight@11.2 seven@12.51 eight@13.8", "", ""},
	{"rollup-word-times.vtt", "webvtt", "word", "and@10 one@10.4 two@11.9 three@12.51 four@14.5 five@15.7", "", ""},
	{"segments-words.json", "json", "cue", "ready@0.1 and@0.5 1 two@2.4 three four", "",
		"1 word without a time|1 segment without a time"},
	{"stuck-recogniser.json", "json", "cue", "eight@60 eight@61 eight@62 eight@63 eight@64 Thank@65 you", "", "1 stuck"},
	{"tag-bomb.vtt", "webvtt", "cue", strings.Repeat("x", 1000) + "@1", "", ""},
	{"tags-and-marks.srt", "subrip", "cue", "and@4 three four/HELPER six@7 ten",
		"[Music]|(laughs)|♪ la la five ♪|[counting continues]|*applause*", ""},
	{"times-loose.srt", "subrip", "cue", "one@1.5 two@3.25 three@5 four@7 five@9", "", "18 arrow"},
	{"times.csv", "table", "cue", "ready@1.5/Therapist and/Therapist one/Therapist two@4", "", ""},
	{"transcript-mixed-shapes.txt", "transcript", "cue",
		"one@1.5 two@5.5 three@9.5 four@13 five@17.25 six@21.5/Therapist seven@25.5/Therapist eight@29.5 nine@33.5 ten@37.5", "", ""},
	{"transcript-time-after.txt", "transcript", "block",
		"one@0.5 two three four@12.5 five six rest@31.5 for 1:30 please", "", "1 stand after their words"},
	{"transcript-time-then-line.txt", "transcript", "cue",
		"ready@1.5 and one 2@4.5 3 4 five@11.5 hold@65.5 for five seconds six@3723.5", "", ""},
	{"transcript-times-in-talk.txt", "transcript", "block",
		"see@0.5 you at 9:30 on Monday rest@12.5 for 1:30 then 0:45 to go one@41.5 2:1 ratio", "", ""},
	{"two-styles.ttml", "ttml", "cue", "one@1.1234", "", ""},
	{"utf16be-no-bom.vtt", "webvtt", "cue", "one@1 two", "", "0 UTF-16"},
	{"utf16le-bom.srt", "subrip", "cue", "one@1 two", "", ""},
	{"voices.vtt", "webvtt", "cue",
		"ready@1/Therapist and/Therapist one/Therapist me/Helper too/Helper two@5/Therapist oh/Helper dear/Helper three/Helper", "", ""},
	{"word-lrc.lrc", "lrc", "word", "ready@9.5 and@10.3 one@10.7 two@12 two@15 three@17.75", "", "2 [offset]"},
	{"wrapped.ttml", "ttml", "cue", "hold@1 for ten seconds one@5 two three four five", "", ""},
}

func TestNasty(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range nasty {
		seen[c.file] = true
		b, err := os.ReadFile("testdata/nasty/" + c.file)
		if err != nil {
			t.Error(err)
			continue
		}
		track, err := Parse(b, c.file, Options{})
		if err != nil {
			t.Error(err)
			continue
		}
		if track.Format != c.format {
			t.Errorf("%s: format %q, want %q", c.file, track.Format, c.format)
		}
		if c.timing != "" && track.Timing.String() != c.timing {
			t.Errorf("%s: timing %s, want %s", c.file, track.Timing, c.timing)
		}
		checkWords(t, c.file, track, c.words)
		checkEvents(t, c.file, track, c.events)
		checkWarnings(t, c.file, track, c.warn)
		checkTrack(t, c.file, track)
	}
	files, err := os.ReadDir("testdata/nasty")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !seen[f.Name()] {
			t.Errorf("testdata/nasty/%s: no row says what to read in it", f.Name())
		}
	}
}

// checkWords compares words, and their times and speakers where want gives them.
func checkWords(t *testing.T, name string, track *Track, want string) {
	t.Helper()
	fields := strings.Fields(want)
	var got []string
	for _, w := range track.Words {
		got = append(got, w.Text)
	}
	if len(got) != len(fields) {
		t.Errorf("%s: words %q, want %q", name, got, fields)
		return
	}
	for i, f := range fields {
		f, speaker, _ := strings.Cut(f, "/")
		text, at, timed := strings.Cut(f, "@")
		w := track.Words[i]
		if w.Text != text || w.Speaker != speaker {
			t.Errorf("%s: word %d %q of %q, want %q of %q", name, i, w.Text, w.Speaker, text, speaker)
		}
		if !timed {
			continue
		}
		s, err := strconv.ParseFloat(at, 64)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(w.Time.At.Seconds()-s) > 0.001 {
			t.Errorf("%s: %q at %v s, want %v", name, w.Text, w.Time.At.Seconds(), s)
		}
	}
}

func checkEvents(t *testing.T, name string, track *Track, want string) {
	t.Helper()
	var got []string
	for _, e := range track.Events {
		got = append(got, e.Text)
	}
	if s := strings.Join(got, "|"); s != want {
		t.Errorf("%s: events %q, want %q", name, s, want)
	}
}

// checkWarnings asks for every warning in want, and for none at all where want is empty.
func checkWarnings(t *testing.T, name string, track *Track, want string) {
	t.Helper()
	if want == "" {
		if len(track.Warnings) > 0 {
			t.Errorf("%s: warnings %v, want none", name, track.Warnings)
		}
		return
	}
next:
	for _, w := range strings.Split(want, "|") {
		line, text, _ := strings.Cut(w, " ")
		for _, got := range track.Warnings {
			if fmt.Sprint(got.Line) == line && strings.Contains(got.Text, text) && got.Count > 0 {
				continue next
			}
		}
		t.Errorf("%s: warnings %v, want one at line %s with %q", name, track.Warnings, line, text)
	}
}

// checkTrack checks what holds of every track.
func checkTrack(t *testing.T, name string, track *Track) {
	t.Helper()
	at, first := Time(0), 0
	for i, c := range track.Cues {
		if c.First != first || c.Last < c.First || c.Start < 0 || c.End <= c.Start {
			t.Errorf("%s: cue %d %+v", name, i, c)
		}
		first = c.Last
		for k := c.First; k < c.Last; k++ {
			w := track.Words[k]
			if w.Cue != i || w.Text == "" || w.Line <= 0 || !(w.Doubt >= 0 && w.Doubt <= 1) {
				t.Errorf("%s: word %d %+v in cue %d", name, k, w, i)
			}
			s := w.Time
			if s.At < at || s.Low < 0 || s.Low > s.At || s.High < s.At || s.From == EvidenceUnknown {
				t.Errorf("%s: word %d %q: time %+v after %v", name, k, w.Text, s, at)
			}
			at = s.At
		}
	}
	if first != len(track.Words) {
		t.Errorf("%s: cues hold %d of %d words", name, first, len(track.Words))
	}
	if track.Timing == TimingUnknown && len(track.Words) > 0 {
		t.Errorf("%s: timing unknown", name)
	}
}
