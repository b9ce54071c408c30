package caption

import (
	"strings"
	"testing"
	"time"
)

// hostile makes broken or merely huge inputs of a size that grows with n.
var hostile = map[string]func(n int) string{
	"open tags":    func(n int) string { return "WEBVTT\n\n00:01.000 --> 00:02.000\n" + strings.Repeat("<b>x", n) },
	"open angles":  func(n int) string { return "WEBVTT\n\n00:01.000 --> 00:02.000\n" + strings.Repeat("<", n*4) },
	"open braces":  func(n int) string { return "1\n00:00:01,000 --> 00:00:02,000\n" + strings.Repeat("{[(*♪#", n) },
	"one line":     func(n int) string { return "1\n00:00:01,000 --> 00:00:02,000\n" + strings.Repeat("one two ", n) },
	"one word":     func(n int) string { return "1\n00:00:01,000 --> 00:00:02,000\n" + strings.Repeat("one-", n) },
	"one number":   func(n int) string { return "1\n00:00:01,000 --> 00:00:02,000\n" + strings.Repeat("1,111,", n) },
	"lone CR":      func(n int) string { return "1\r00:00:01,000 --> 00:00:02,000\r" + strings.Repeat("a\r", n) },
	"references":   func(n int) string { return "WEBVTT\n\n00:01.000 --> 00:02.000\n" + strings.Repeat("&#1", n) },
	"backwards":    func(n int) string { return strings.Repeat("[0:09] x\n[0:01] y\n", n/2) },
	"same time":    func(n int) string { return strings.Repeat("[0:09] x\n", n/2) },
	"nested XML":   func(n int) string { return "<tt><body><p begin='1s'>" + strings.Repeat("<span>x", n) },
	"JSON objects": func(n int) string { return `{"segments":[` + strings.Repeat(`{"start":1,"text":"x"},`, n/2) },
	"LRC times":    func(n int) string { return "[ti:x]\n" + strings.Repeat("[00:01.00]", n/4) + "x" },
	"underlined": func(n int) string {
		return "WEBVTT\n\n" + strings.Repeat("00:01.000 --> 00:02.000\n<u>a</u> b\n\n", n/8)
	},
	"quotes":    func(n int) string { return "start,text\n" + strings.Repeat("1,\"\"\"x\n", n/2) },
	"stamps":    func(n int) string { return strings.Repeat("[0:01] [0:02] ", n/2) },
	"dialogs":   func(n int) string { return strings.Repeat("Dialogue: 0,x,y,,,,,,,\n", n/16) },
	"cues":      manyCues,
	"cue names": func(n int) string { return "WEBVTT\n\n" + strings.Repeat("name\n00:01.000 --> 00:02.000\na\n\n", n/8) },
	"deep XML":  func(n int) string { return "<tt><body>" + strings.Repeat("<div begin='1s'>", n) + "x" },
	"entity bomb": func(n int) string {
		return "<!DOCTYPE tt [<!ENTITY a 'lol'><!ENTITY b '" + strings.Repeat("&a;", n) + "'>]><tt><body><p begin='1s'>&b;&b;</p></body></tt>"
	},
	"entities used":    func(n int) string { return "<tt><body><p begin='1s'>" + strings.Repeat("&a;", n) + "</p></body></tt>" },
	"escaped tags":     func(n int) string { return "WEBVTT\n\n00:01.000 --> 00:02.000\n" + strings.Repeat("&lt;b", n) },
	"references twice": func(n int) string { return "WEBVTT\n\n00:01.000 --> 00:02.000\n" + strings.Repeat("&amp;", n) },
	"carried lines": func(n int) string {
		return "WEBVTT\n\n" + strings.Repeat("00:01.000 --> 00:02.000\na\nb\n\n", n/8)
	},
	"carried in TTML": func(n int) string {
		return "<tt><body>" + strings.Repeat("<p begin='1s' end='2s'>a<br/>b</p>", n/8) + "</body></tt>"
	},
	"one cue of many lines": func(n int) string { return "1\n00:00:01,000 --> 00:00:02,000\n" + strings.Repeat("a\n", n) },
	"blank lines":           func(n int) string { return "1\n00:00:01,000 --> 00:00:02,000\na" + strings.Repeat("\n", n) + "b\n" },
	"clock jumps": func(n int) string {
		return strings.Repeat("00:00:01,000 --> 00:00:02,000\na\n\n10:00:00,000 --> 10:00:01,000\nb\n\n", n/16)
	},
	"numbers only": func(n int) string { return strings.Repeat("1\n00:00:01,000 --> 00:00:02,000\n1\n", n/8) },
	"SSA braces": func(n int) string {
		return "Dialogue: 0,0:00:01.00,0:00:02.00,Default,,0,0,0,,x" + strings.Repeat("{", n)
	},
	"songs":      func(n int) string { return strings.Repeat("00:00:01,000 --> 00:00:02,000\n♪ a\n\n", n/8) },
	"transcript": func(n int) string { return strings.Repeat("[0:01] x\nMara: y\n", n/4) },
}

// TestLinear reads each input at one size and at eight times the size: where the cost grows with the bytes the time does so too; where it
// grows with their square, it grows 64-fold. Up to 24-fold, or a fifth of a second, is let pass for busy machines.
func TestLinear(t *testing.T) {
	const small, times = 5_000, 8
	for name, input := range hostile {
		few, many := []byte(input(small)), []byte(input(small*times))
		opt := Options{MaxCues: 1_000_000}
		short, long := time.Hour, time.Hour
		for range 3 {
			short = min(short, timeOf(func() { Parse(few, name, opt) }))
			long = min(long, timeOf(func() { Parse(many, name, opt) }))
			if long < 200*time.Millisecond || long < 3*times*short {
				break
			}
		}
		if long >= 200*time.Millisecond && long >= 3*times*short {
			t.Errorf("%s: %v at %d bytes, %v at %d", name, short, len(few), long, len(many))
		}
	}
}

// TestLongLine reads a line of 10 MB: every word of it, in time that grows with the bytes (some seconds on a slow machine).
func TestLongLine(t *testing.T) {
	for name, head := range map[string]string{"SubRip": "1\n00:00:01,000 --> 00:00:02,000\n", "transcript": "[0:01] "} {
		const n = 10 << 20 / 8
		file := []byte(head + strings.Repeat("one two ", n) + "\n[0:05] x\n")
		start := time.Now()
		track, err := Parse(file, name, Options{})
		if err != nil {
			t.Error(err)
			continue
		}
		if len(track.Words) < 2*n || time.Since(start) > 20*time.Second {
			t.Errorf("%s: %d words of %d in %v", name, len(track.Words), 2*n, time.Since(start))
		}
	}
}

// TestEntityBomb: what a file declares itself is not followed, so nothing can grow without end.
func TestEntityBomb(t *testing.T) {
	bomb := "<!DOCTYPE tt [<!ENTITY a 'seven'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'><!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;'>]>\n" +
		"<tt><body><p begin='1s' end='2s'>one &c; two &amp; 3</p></body></tt>\n"
	track, err := Parse([]byte(bomb), "bomb", Options{})
	if err != nil {
		t.Fatal(err)
	}
	checkWords(t, "bomb", track, "one@1 two 3")
	checkWarnings(t, "bomb", track, "2 declares itself")
}
