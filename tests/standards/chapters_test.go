package standards_test

import (
	"fmt"
	"html"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"captally.example/captally/corpus"
	"captally.example/captally/notes"
	"captally.example/captally/tests/spoken"
)

// chapter is one cue of a chapters file, times in milliseconds.
type chapter struct {
	start, end int64
	title      string
}

// A timestamp: hours of two digits or more, left out when nought; minutes and seconds from 00 to 59; three decimals (WebVTT, W3C, w3.org/TR/webvtt1, section 4.1).
var timestamp = regexp.MustCompile(`^(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})$`)

// readChapters reads a WebVTT file by the rules for authors of chapter files (w3.org/TR/webvtt1, sections 4.1, 4.6.2 "WebVTT file using only nested cues" and 4.6.3
// "WebVTT file using chapter title text"), and refuses what breaks one.
func readChapters(data string) ([]chapter, error) {
	if !utf8.ValidString(data) {
		return nil, fmt.Errorf("not UTF-8")
	}
	blocks := strings.Split(strings.TrimRight(data, "\n"), "\n\n")
	if blocks[0] != "WEBVTT" && !strings.HasPrefix(blocks[0], "WEBVTT ") {
		return nil, fmt.Errorf("starts with %.20q, not WEBVTT", data)
	}
	var out []chapter
	ids := map[string]bool{}
	for _, block := range blocks[1:] {
		lines := strings.Split(strings.Trim(block, "\n"), "\n")
		if !strings.Contains(lines[0], " --> ") {
			if ids[lines[0]] || strings.Contains(lines[0], "-->") {
				return nil, fmt.Errorf("identifier %q is not unique, or holds an arrow", lines[0])
			}
			ids[lines[0]] = true
			lines = lines[1:]
		}
		if len(lines) != 2 {
			return nil, fmt.Errorf("cue %q: want a line of times and one line of title", block)
		}
		c, err := readCue(lines[0], lines[1])
		if err != nil {
			return nil, err
		}
		if last := len(out) - 1; last >= 0 && c.start < out[last].start {
			return nil, fmt.Errorf("%q starts before the cue above it", c.title)
		}
		for _, o := range out {
			apart := c.start >= o.end || c.end <= o.start
			nested := c.start >= o.start && c.end <= o.end || c.start <= o.start && c.end >= o.end
			if !apart && !nested {
				return nil, fmt.Errorf("%q overlaps %q in part", c.title, o.title)
			}
		}
		out = append(out, c)
	}
	return out, nil
}

func readCue(times, title string) (chapter, error) {
	from, to, _ := strings.Cut(times, " --> ")
	start, ok1 := readTime(from)
	end, ok2 := readTime(to)
	switch {
	case !ok1 || !ok2:
		return chapter{}, fmt.Errorf("times %q are not two timestamps", times)
	case end <= start:
		return chapter{}, fmt.Errorf("%q ends at or before its start", title)
	case strings.Contains(title, "-->") || strings.Contains(title, "<"):
		return chapter{}, fmt.Errorf("title %q holds an arrow or a tag", title)
	case regexp.MustCompile(`&(?:[^a-zA-Z#]|$)`).MatchString(title):
		return chapter{}, fmt.Errorf("title %q holds a bare ampersand", title)
	case strings.TrimSpace(title) == "":
		return chapter{}, fmt.Errorf("the cue at %s has no title", from)
	}
	return chapter{start, end, html.UnescapeString(title)}, nil
}

func readTime(s string) (int64, bool) {
	m := timestamp.FindStringSubmatch(s)
	if m == nil {
		return 0, false
	}
	var ms int64
	for i, unit := range []int64{3600000, 60000, 1000, 1} {
		n, _ := strconv.ParseInt(m[i+1], 10, 64) // hours left out are none
		ms += n * unit
	}
	return ms, true
}

// The rules accept and refuse what the standard says they should: the six nested cues are the standard's example in section 4.6.2, the two that
// overlap in part its counter-example.
func TestChapterRules(t *testing.T) {
	cue := func(times string) string { return "\n" + times + "\nA title\n" }
	tree := "WEBVTT\n" + cue("00:00.000 --> 01:24.000") + cue("00:00.000 --> 00:44.000") + cue("00:44.000 --> 01:19.000") +
		cue("01:24.000 --> 05:00.000") + cue("01:35.000 --> 03:00.000") + cue("03:00.000 --> 05:00.000")
	if c, err := readChapters(tree); err != nil || len(c) != 6 {
		t.Errorf("the nested example: %d cues, %v", len(c), err)
	}
	for _, bad := range []string{
		"WEBVTT\n" + cue("00:00.000 --> 01:00.000") + cue("00:30.000 --> 01:30.000"),
		"WEBVTT\n" + cue("00:10.000 --> 00:20.000") + cue("00:00.000 --> 00:10.000"),
		"WEBVTT\n" + cue("00:10.000 --> 00:10.000"),
		"WEBVTT\n" + cue("00:10.00 --> 00:20.000"),
		"WEBVTT\n" + cue("1:00:10.000 --> 01:00:20.000"),
		"WEBVTT\n" + cue("00:60.000 --> 01:20.000"),
		"WEBVTT\n\n00:00.000 --> 00:10.000\nPush & pull\n",
		"WEBVTT\n\n00:00.000 --> 00:10.000\nThe <b>wall</b>\n",
		"WEBVTT\n\none\n00:00.000 --> 00:10.000\nA\n\none\n00:10.000 --> 00:20.000\nB\n",
		cue("00:00.000 --> 00:10.000"),
	} {
		if _, err := readChapters(bad); err == nil {
			t.Errorf("accepted:\n%s", bad)
		}
	}
}

func TestChaptersOfOddTitles(t *testing.T) {
	titles := []string{"Push & pull", "Left --> right", "The <b>wall</b>", "Two\nlines\n\nand three", "&amp; already", "Über 60", "Last"}
	n := new(notes.Notes)
	for i, title := range titles {
		n.Chapters = append(n.Chapters, notes.Chapter{Start: float64(1200 * i), Title: title}) // beyond an hour too
	}
	got, err := readChapters(string(notes.Chapters(n)))
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range got {
		if want := strings.Join(strings.Fields(titles[i]), " "); c.title != want || c.start != int64(1200000*i) {
			t.Errorf("chapter %d: %q at %d ms, want %q", i+1, c.title, c.start, want)
		}
	}
	if len(got) != len(titles) {
		t.Errorf("%d chapters, want %d", len(got), len(titles))
	}
}

// The chapters of every labelled session keep the rules, tile the recording from 0 to its end, and are at least ten seconds long (common practice of players, no source).
func TestChaptersOfTheCorpus(t *testing.T) {
	for _, s := range slices.Concat(corpus.Sessions(), corpus.Recognised()) {
		for _, f := range s.Files() {
			r := measure(t, spoken.File{Name: f.Name, Timing: f.Timing, Data: f.Data})
			got, err := readChapters(string(notes.Chapters(notes.Draft(r, notes.Profile{}))))
			if err != nil {
				t.Errorf("%s: %v", f.Name, err)
				continue
			}
			if len(got) < 3 || got[0].start != 0 || got[len(got)-1].end < int64(1000*r.Source.Duration) {
				t.Errorf("%s: %d chapters from %d to %d ms, want the whole recording in three or more", f.Name, len(got), got[0].start, got[len(got)-1].end)
			}
			for i := 1; i < len(got); i++ {
				if got[i].start != got[i-1].end || got[i].start-got[i-1].start < 10000 {
					t.Errorf("%s: chapter %q starts at %d ms, the one before lasts from %d to %d", f.Name, got[i].title, got[i].start, got[i-1].start, got[i-1].end)
				}
			}
		}
	}
}
