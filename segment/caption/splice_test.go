package caption

import (
	"errors"
	"os"
	"strings"
	"testing"
)

func TestSplice(t *testing.T) {
	rollup, err := os.ReadFile("testdata/nasty/rollup-word-times.vtt")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, src string
		changes   []Change
		want      []string // "old -> new" of every line that differs
	}{
		{"roll-up: a word in all its showings", string(rollup), []Change{{2, "three"}},
			[]string{
				"and<00:00:10.400><c> one</c><00:00:11.900><c> two</c> -> and<00:00:10.400><c> one</c><00:00:11.900><c> three</c>",
				"and one two -> and one three", "and one two -> and one three"}},
		{"roll-up: the first word", string(rollup), []Change{{3, "six & seven"}},
			[]string{
				"three<00:00:14.500><c> four</c><00:00:15.700><c.colorE5E5E5> five</c> -> six &amp; seven<00:00:14.500><c> four</c><00:00:15.700><c.colorE5E5E5> five</c>",
				"three four five -> six &amp; seven four five"}},
		{"roll-up: a word deleted", string(rollup), []Change{{4, ""}},
			[]string{
				"three<00:00:14.500><c> four</c><00:00:15.700><c.colorE5E5E5> five</c> -> three<00:00:14.500><c></c><00:00:15.700><c.colorE5E5E5> five</c>",
				"three four five -> three five"}},
		{"roll-up: a line emptied", string(rollup), []Change{{3, ""}, {4, ""}, {5, ""}},
			[]string{
				"three<00:00:14.500><c> four</c><00:00:15.700><c.colorE5E5E5> five</c> -> <00:00:14.500><c></c><00:00:15.700><c.colorE5E5E5></c>",
				"three four five ->  "}},
		{"SubRip: raw text, doubled number with its comma",
			"\xEF\xBB\xBF7\r\n00:00:01,000 --> 00:00:02,000 X1:1\r\n<i>one</i>, two,\r\n\r\n8\r\n00:00:02,000 --> 00:00:03,000\r\n{\\an8}two, thr<b>ee</b> &amp; 4\r\n",
			[]Change{{2, ""}, {3, "3 <"}, {4, "four"}},
			[]string{"{\\an8}two, thr<b>ee</b> &amp; 4 -> {\\an8}3 <<b></b> &amp; four"}},
		{"VTT: comments, styles, names, settings stay",
			"WEBVTT - title\nKind: captions\n\nSTYLE\n::cue { color: red }\n\nNOTE one\n\nname\n00:01.000 --> 00:02.000 align:start\n<v Coach>one t&#119;o\n- three\n\nNOTE end",
			[]Change{{1, "2"}},
			[]string{"<v Coach>one t&#119;o -> <v Coach>one 2"}},
		{"a line that would be empty keeps a blank",
			"WEBVTT\n\n00:01.000 --> 00:02.000\none\ntwo\n", []Change{{0, ""}}, []string{"one ->  "}},
		{"one word underlined in each showing",
			"WEBVTT\n\n00:01.000 --> 00:02.000\n<u>one</u> two\n\n00:02.000 --> 00:03.000\none <u>two</u>\n\n00:03.000 --> 00:04.000\nthree <u>four</u>\n\n00:04.000 --> 00:05.000\n<u>three</u> four\n",
			[]Change{{1, "too"}}, []string{"<u>one</u> two -> <u>one</u> too", "one <u>two</u> -> one <u>too</u>"}},
		{"a word with a time inside it",
			"WEBVTT\n\n00:01.000 --> 00:04.000\nthir<00:01.500>teen <00:02.000>four<00:02.500>teen <00:03.000>six\n", []Change{{1, "14"}},
			[]string{"thir<00:01.500>teen <00:02.000>four<00:02.500>teen <00:03.000>six -> thir<00:01.500>teen <00:02.000>14<00:02.500> <00:03.000>six"}},
		{"references side by side",
			"1\n00:00:01,000 --> 00:00:02,000\n&#x34;&nbsp;more\n", []Change{{0, "5"}}, []string{"&#x34;&nbsp;more -> 5&nbsp;more"}},
		{"tags of no known name",
			"WEBVTT\n\n00:01.000 --> 00:04.000\n<x>12</x> and 3<4\n", []Change{{0, "11"}}, []string{"<x>12</x> and 3<4 -> <x>11</x> and 3<4"}},
	} {
		track, err := Parse([]byte(c.src), c.name, Options{})
		if err != nil {
			t.Error(err)
			continue
		}
		out, err := Splice([]byte(c.src), track, c.changes)
		if err != nil {
			t.Error(err)
			continue
		}
		old, changed := strings.Split(c.src, "\n"), strings.Split(string(out), "\n")
		var got []string
		for i := range old {
			if i < len(changed) && old[i] != changed[i] {
				got = append(got, strings.TrimSuffix(old[i], "\r")+" -> "+strings.TrimSuffix(changed[i], "\r"))
			}
		}
		if strings.Join(got, "\n") != strings.Join(c.want, "\n") || len(old) != len(changed) {
			t.Errorf("%s:\ngot  %q\nwant %q", c.name, got, c.want)
		}
	}
}

func TestSpliceRefuses(t *testing.T) {
	src := "1\n00:00:01,000 --> 00:00:02,000\none two\n"
	track, err := Parse([]byte(src), "x.srt", Options{})
	if err != nil {
		t.Fatal(err)
	}
	for name, f := range map[string]func() error{
		"no such word":   func() error { _, err := Splice([]byte(src), track, []Change{{2, "x"}}); return err },
		"a line end":     func() error { _, err := Splice([]byte(src), track, []Change{{0, "x\n\n2"}}); return err },
		"a tag":          func() error { _, err := Splice([]byte(src), track, []Change{{0, "<b>x</b>"}}); return err },
		"changed twice":  func() error { _, err := Splice([]byte(src), track, []Change{{0, "x"}, {0, "y"}}); return err },
		"another file":   func() error { _, err := Splice([]byte(src+"three\n"), track, []Change{{0, "x"}}); return err },
		"another format": func() error { _, err := Splice(nil, &Track{Format: "ttml"}, nil); return err },
	} {
		if err := f(); !errors.Is(err, ErrSplice) {
			t.Errorf("%s: error %v, want ErrSplice", name, err)
		}
	}
}

// TestSpliceCorpus changes every tenth word of real sessions, in all three formats of cues, and deletes some.
func TestSpliceCorpus(t *testing.T) {
	for _, name := range []string{"sessions/knee-weeks4.word.vtt", "sessions/knee-weeks4.cue.srt", "recognised/knee-weeks4.word.vtt", "recognised/knee-weeks4.cue.srt"} {
		src, err := os.ReadFile("../../corpus/" + name)
		if err != nil {
			t.Fatal(err)
		}
		track, err := Parse(src, name, Options{})
		if err != nil {
			t.Fatal(err)
		}
		same, err := Splice(src, track, nil)
		if err != nil || string(same) != string(src) {
			t.Errorf("%s: no changes give another file (%v)", name, err)
		}
		var changes []Change
		for i := 5; i < len(track.Words); i += 10 {
			changes = append(changes, Change{i, []string{"zwölf", "", "21"}[i/10%3]})
		}
		out, err := Splice(src, track, changes)
		if err != nil {
			t.Error(err)
			continue
		}
		if a, b := strings.Count(string(src), "\n"), strings.Count(string(out), "\n"); a != b {
			t.Errorf("%s: %d lines, want %d", name, b, a)
		}
	}
}
