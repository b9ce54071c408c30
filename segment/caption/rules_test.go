package caption

import (
	"bytes"
	"testing"
	"time"

	"github.com/asticode/go-astisub"
)

// rules holds an input for each lenient rule and for the case beside it in which the rule must not hold; columns as in more.
var rules = []struct {
	name, content          string
	words, events, warning string
}{
	{"a time line that cannot be read keeps its words",
		"1\n00:00:01,000 --> 00:00:02,000\none\n\n2\n00:0X:02,000 --> 00:00:0Y,000\ntwo\n\n3\n00:00:03,000 --> 00:00:04,000\nthree\n",
		"one@1 two@2 three@3", "", "6 time line not understood"},
	{"colons on one side of an arrow are words",
		"1\n00:00:01,000 --> 00:00:02,000\nO2:15 --> rest\n", "O2:15@1 rest", "", ""},
	{"frames in a time with hours, not three parts",
		"1\n00:00:01:15 --> 00:00:02:00\none\n\n2\n00:01:15 --> 00:01:20\ntwo\n", "one@1.5 two@75", "", "2 frames"},
	{"three digits after a third colon are decimals", "1\n00:00:01:500 --> 00:00:02:000\none\n", "one@1.5", "", ""},
	{"two full times with a comma between them", "00:00:01.000,00:00:02.500\none\n\n00:00:03.000,00:00:04.000\ntwo\n", "one@1 two@3", "", "1 arrow not written"},
	{"two plain times with a stroke between them are words", "1\n00:00:01,000 --> 00:00:02,000\n0:10 - 0:20\n0:10 = 0:20\n0:10 -- 0:20\n",
		"0:10@1 0:20 0:10 0:20 0:10 0:20", "", ""},
	{"numbers with marks around them", "#1\n00:00:01,000 --> 00:00:02,000\none\n\n#2\n00:00:02,000 --> 00:00:03,000\n2\n", "one@1 2@2", "", ""},
	{"numbers with a dot", "1.\n00:00:01,000 --> 00:00:02,000\none\n\n2.\n00:00:02,000 --> 00:00:03,000\n2.\n", "one@1 2@2", "", ""},
	{"a number that does not go on by one, where all cues have one",
		"1\n00:00:01,000 --> 00:00:02,000\none\n3\n00:00:02,000 --> 00:00:03,000\ntwo\n", "one@1 two@2", "", "4 does not go on by one"},
	{"the same where a cue has none: a word",
		"1\n00:00:01,000 --> 00:00:02,000\none\n3\n00:00:02,000 --> 00:00:03,000\ntwo\n\n00:00:03,000 --> 00:00:04,000\nfour\n", "one@1 3 two@2 four@3", "", ""},
	{"names of cues that are numbers, in a file that also has cues without",
		"WEBVTT\n\n00:01.000 --> 00:02.000\none\n\n2\n00:02.000 --> 00:03.000\ntwo\n", "one@1 two@2", "", "6 name of the cue"},
	{"an end beyond a day", "1\n00:00:01,000 --> 99:00:02,000\none\n", "one@1", "", "2 ends beyond 24 hours"},
	{"a jump of the clock and back is a cue out of order",
		"1\n00:00:01,000 --> 00:00:02,000\none\n\n2\n09:00:00,000 --> 09:00:01,000\nlast\n\n3\n00:00:03,000 --> 00:00:04,000\ntwo\n",
		"one@1 two@3 last@32400", "", "10 begins before"},
	{"a long film is no jump", "1\n00:00:01,000 --> 00:00:02,000\none\n\n2\n05:59:00,000 --> 05:59:01,000\ntwo\n", "one@1 two@21540", "", ""},
	{"tags with an unknown name end on their line, or are words",
		"1\n00:00:01,000 --> 00:00:02,000\n<glow>one</glow> <two> three\n", "one@1 two three", "", ""},
	{"signs that are no tags", "1\n00:00:01,000 --> 00:00:02,000\nif <90 and 1<2 & 3>2 &amp;c &copy\n", "if@1 90 and 1<2 3 2 c", "", ""},
	{"an escaped voice tag", "WEBVTT\n\n00:01.000 --> 00:02.000\n&lt;v Coach&gt;one\n", "one@1/Coach", "", ""},
	{"references written three times over", "1\n00:00:01,000 --> 00:00:02,000\ndon&amp;amp;#39;t\n", "don't@1", "", ""},
	{"a role in brackets", "1\n00:00:01,000 --> 00:00:02,000\n[Helper]: one\n\n2\n00:00:02,000 --> 00:00:03,000\n(Therapist) two\n", "one@1/Helper two@2/Therapist", "", ""},
	{"cues that begin together share their time",
		"1\n00:00:01,000 --> 00:00:03,000\none two\n\n2\n00:00:01,000 --> 00:00:03,000\nthree four\n", "one@1 two three four", "", ""},
	{"the same words at the same time but of another length are two cues",
		"1\n00:00:01,000 --> 00:00:03,000\none\n\n2\n00:00:01,000 --> 00:00:02,500\none\n", "one one", "", ""},
	{"a title in another encoding than the rest", "1\n00:00:01,000 --> 00:00:02,000\nna\xefve\n\n2\n00:00:02,000 --> 00:00:03,000\ncafé – déjà\n",
		"naïve@1 café@2 déjà", "", "3 UTF-8 for the rest"},
	{"SSA: braces that do not close, or stand alone",
		"Dialogue: 0,0:00:01.00,0:00:03.00,Default,,0,0,0,,one {two\nDialogue: 0,0:00:04.00,0:00:05.00,Default,,0,0,0,,{not a mark}three } four\n",
		"one@1 two three@4 four", "", "2 braces"},
	{"SSA: a drawing goes on over a line break, and ends",
		"Dialogue: 0,0:00:01.00,0:00:03.00,Default,,0,0,0,,{\\p2}m 1 2\\Nl 3 4{\\p0} five\n", "five@1", "", ""},
	{"SSA: \\pos is no drawing", "Dialogue: 0,0:00:01.00,0:00:03.00,Default,,0,0,0,,{\\pos(10,20)}one {\\pbo5}two\n", "one@1 two", "", ""},
	{"TTML: lines that are said twice are not carried",
		"<tt><body><p begin='1s' end='2s'>one<br/>two</p><p begin='3s' end='4s'>three<br/>four</p><p begin='5s' end='6s'>four<br/>five</p><p begin='7s' end='8s'>six<br/>seven</p></body></tt>\n",
		"one@1 two three@3 four four@5 five six@7 seven", "", ""},
	{"TTML: a cue of 10 ms with the carried line alone",
		"<tt><body><p begin='1s' end='3s'>one</p><p begin='3s' end='3.01s'>one</p><p begin='3.01s' end='5s'>one<br/>two</p></body></tt>\n", "one@1 two@3.01", "", ""},
	{"table: a row of separators, and a line without a time", "sep=;\nstart;text\n1,5;one\n;two\n3,0;four\n", "one@1.5 two four@3", "", "4 without a time"},
	{"JSON: whole numbers beyond ten hours are ms", `{"segments":[{"start":1000,"end":2000,"text":"one"},{"start":40000,"end":41000,"text":"two"}]}` + "\n",
		"one@1 two@40", "", "0 taken as milliseconds"},
	{"JSON: the recogniser doubts that anybody spoke", `{"segments":[{"start":1,"end":2,"text":"one","no_speech_prob":0.9}]}` + "\n", "one@1", "", "1 no_speech_prob"},
	{"transcript: times that were links, and numbered lines",
		"[0:02](https://captions.example/?t=2) sit tall\n[0:06](https://captions.example/?t=6) one\n", "sit@2.5 tall one@6.5", "", ""},
	{"transcript: a number of a list is none without a time behind it", "[0:02] sit\n3. lift\n[0:06] one\n", "sit@2.5 3 lift one@6.5", "", ""},
	{"transcript: from and to with two strokes", "0:02 -- 0:04 sit\n0:06 -- 0:08 one\n", "sit@2.5 one@6.5", "", ""},
	{"WebVTT cut behind the time of a cue", "WEBVTT\n\n00:01.000 --> 00:02.000\none\n\n00:03.000 --> 00:04.000\n", "one@1", "", "6 its words are missing"},
	{"a dash behind initials", "1\n00:00:01,000 --> 00:00:02,000\ne.g.—one p.m—two a.m.\n", "e.g@1 one p.m two a.m", "", ""},
}

func TestRules(t *testing.T) {
	for _, c := range rules {
		track, err := Parse([]byte(c.content), c.name, Options{})
		if err != nil {
			t.Error(err)
			continue
		}
		checkWords(t, c.name, track, c.words)
		checkEvents(t, c.name, track, c.events)
		checkWarnings(t, c.name, track, c.warning)
		checkTrack(t, c.name, track)
	}
}

// TestFolds: digits of any script count as digits, invisible marks and kinds of apostrophe make no difference.
func TestFolds(t *testing.T) {
	track, err := Parse([]byte("1\n00:00:01,000 --> 00:00:02,000\n১২ ٣ ５ ۶ Don’t SIT‑UP É ei\u00adght\n"), "folds", Options{})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"12", "3", "5", "6", "don't", "sit-up", "é", "eight"}
	for i, w := range track.Words {
		if i >= len(want) || w.Fold != want[i] {
			t.Errorf("%q folds to %q, want %q", w.Text, w.Fold, want)
		}
	}
	if len(track.Words) != len(want) {
		t.Errorf("%d words, want %d", len(track.Words), len(want))
	}
}

// TestCarriedSTL: captions that rolled up before they became EBU STL, as the subtitle library writes it.
func TestCarriedSTL(t *testing.T) {
	s := astisub.NewSubtitles()
	for i, lines := range [][]string{{"sit tall"}, {"sit tall", "and one"}, {"and one", "two"}, {"two", "two"}} {
		item := &astisub.Item{StartAt: time.Duration(2*i+1) * time.Second, EndAt: time.Duration(2*i+3) * time.Second}
		for _, l := range lines {
			item.Lines = append(item.Lines, astisub.Line{Items: []astisub.LineItem{{Text: l}}})
		}
		s.Items = append(s.Items, item)
	}
	s.Metadata = &astisub.Metadata{Framerate: 25}
	var b bytes.Buffer
	if err := s.WriteToSTL(&b); err != nil {
		t.Fatal(err)
	}
	track, err := Parse(b.Bytes(), "carried.stl", Options{})
	if err != nil {
		t.Fatal(err)
	}
	checkWords(t, "carried.stl", track, "sit@1 tall and@3 one two@5 two@7")
}

// TestTeletextSTL: words that stand outside the box of a Teletext row are kept, with a warning.
func TestTeletextSTL(t *testing.T) {
	file := writeForm([]string{"and", "one", "two", "3"}, 9).file
	file[11] = '1' // Teletext, level 1
	track, err := Parse(file, "teletext.stl", Options{})
	if err != nil {
		t.Fatal(err)
	}
	checkWords(t, "teletext.stl", track, "and@1 one two 3@3")
	checkWarnings(t, "teletext.stl", track, "1 unknown marks")
}
