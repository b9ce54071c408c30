package main

import (
	"strings"
	"testing"
	"time"

	"captally.example/captally/analyze"
	"captally.example/captally/segment/caption"
)

func TestMoment(t *testing.T) {
	end := caption.At(4000)
	for in, want := range map[string]float64{"12:40": 760, "760": 760, "760.5": 760.5, "1:02:03": 3723, "0:07": 7, " 12:40.25 ": 760.25, "0": 0, "100:00": -1,
		"": -1, "12:75": -1, "abc": -1, "-3": -1, "1:2:3:4": -1, "NaN": -1, "Inf": -1, "1e9": -1, "12:": -1, ":12": -1, "4001": -1} {
		got, err := moment(in, end)
		switch {
		case want < 0 && err == nil:
			t.Errorf("%q was read as %v, want an error", in, got)
		case want >= 0 && (err != nil || got != caption.At(want)):
			t.Errorf("%q was read as %v (%v), want %v", in, got, err, caption.At(want))
		}
	}
}

func TestFigures(t *testing.T) {
	check := func(got, want string) {
		t.Helper()
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	check(length(analyze.Range{Value: 46.3, Low: 45.2, High: 47.9}), "46 s (45-48)")
	check(length(analyze.Range{Value: 46.3, Low: 46.1, High: 46.4}), "46 s")
	check(length(analyze.Range{Value: 7.4, Low: 2.2, High: 13}), "7 s (2-13)")
	check(length(analyze.Range{Value: 3.4, Low: 1.6, High: 5.2}), "3.4 s (1.6-5.2)")
	check(length(analyze.Range{}), "")
	check(tenths(caption.At(760.35)), "12:40.3")
	check(tenths(caption.At(-0.25)), "-0:00.2")
	seven, eight := 7, 8
	value, limits := done(analyze.Performed{Reps: &seven, RepsLow: &seven, RepsHigh: &eight})
	check(value+" "+limits, "7 7-8")
	value, limits = done(analyze.Performed{Reps: &seven, RepsLow: &seven, RepsHigh: &seven})
	check(value+" "+limits, "7 ")
	check(cell("=SUM(A1)"), "'=SUM(A1)")
	check(cell("heel-raises"), "heel-raises")
	check(plain("a\x1b[2Jb\u202ec\n"), "a [2Jb c ")
	check(quoted("a b's.srt"), `'a b'\''s.srt'`)
	check(quoted("a.srt"), "a.srt")
}

func TestRestName(t *testing.T) {
	for _, tt := range []struct {
		verdict string
		off     bool
		want    string
	}{
		{"kept", false, "- rest, kept"}, {"over", true, "- rest, too long"}, {"over", false, "- rest, perhaps too long"},
		{"short", true, "- rest, too short"}, {"short", false, "- rest, perhaps too short"}, {"unstated", false, "- rest"},
	} {
		if got := restName(&analyze.Rest{Verdict: tt.verdict}, tt.off); got != tt.want {
			t.Errorf("%s, %v: %q, want %q", tt.verdict, tt.off, got, tt.want)
		}
	}
}

func TestTable(t *testing.T) {
	tab := table{columns: []column{{title: "n", right: true}, {title: "name", shrink: true}, {title: "never"}, {title: "file", shrink: true, ending: true}}}
	tab.add("1", "é", "", "short")
	tab.add("22", strings.Repeat("long ", 30), "", "end")
	var b strings.Builder
	tab.print(&b)
	lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
	if len(lines) != 3 || strings.Contains(lines[0], "never") {
		t.Fatalf("an empty column is shown, or rows are missing:\n%s", b.String())
	}
	at := len([]rune(lines[0][:strings.Index(lines[0], "file")]))
	for _, line := range lines {
		r := []rune(line)
		if len(r) > tableWidth {
			t.Errorf("%d characters: %s", len(r), line)
		}
		if r[at-1] != ' ' || r[at] == ' ' {
			t.Errorf("the last column does not begin at %d: %s", at, line)
		}
	}
	if !strings.Contains(lines[2], "…") {
		t.Errorf("cut without a mark: %s", lines[2])
	}
	if got := cut("a/very/long/path.srt", 9, true); got != "…path.srt" {
		t.Errorf("cut to %q", got)
	}
}

func TestWrap(t *testing.T) {
	got := wrap("  head ", strings.Repeat("word ", 40))
	for i, line := range strings.Split(got, "\n") {
		if n := len([]rune(line)); n > tableWidth {
			t.Errorf("line %d has %d characters", i, n)
		}
		if i > 0 && !strings.HasPrefix(line, "       word") {
			t.Errorf("line %d is not indented by seven: %q", i, line)
		}
	}
	if strings.Count(got, "word") != 40 {
		t.Errorf("words were lost: %s", got)
	}
}

func TestProgressSaysNothingSoonOrOffATerminal(t *testing.T) {
	var b strings.Builder
	p := newProgress(&b, 3)
	p.began = time.Now().Add(-time.Hour)
	p.done(1)
	if b.Len() > 0 {
		t.Errorf("written to what is no terminal: %q", b.String())
	}
	p.w = &b
	p.began = time.Now()
	p.done(1)
	if b.Len() > 0 {
		t.Errorf("written within the first second: %q", b.String())
	}
	p.began = time.Now().Add(-2 * time.Second)
	p.done(2)
	p.clear()
	if got, want := b.String(), "\r2 of 3 files\r\x1b[K"; got != want {
		t.Errorf("wrote %q, want %q", got, want)
	}
}
