package main

import (
	"errors"
	"io"
	"strings"
	"testing"
)

func TestArrange(t *testing.T) {
	check := func(in, want string) {
		t.Helper()
		app := newApp(strings.NewReader(""), io.Discard, io.Discard)
		got, err := arrange(app, strings.Split("captally "+in, " "))
		if err != nil {
			t.Errorf("%s: %v", in, err)
		} else if s := strings.Join(got[1:], " "); s != want {
			t.Errorf("%s: arranged as %q, want %q", in, s, want)
		}
	}
	check("measure a.srt --as json b.srt", "measure --as=json -- a.srt b.srt")
	check("--as json measure a.srt", "measure --as=json -- a.srt")
	check("--out measure measure a.srt", "measure --out=measure -- a.srt")
	check("measure a.srt -- --as b.srt", "measure -- a.srt --as b.srt")
	check("measure - --as=csv", "measure --as=csv -- -")
	check("check a.srt --version", "--version check -- a.srt")
	check("check --why 12:40 a.srt -h", "help -- check")
	check("measure --out - a.srt", "measure --out=- -- a.srt")
	check("--help", "help")
	check("help measure", "help -- measure")
}

func TestArrangeRefuses(t *testing.T) {
	for _, in := range []string{"measure a.srt --nope", "measure a.srt --as", "--nope", "nope", "check -why 3 a.srt", "measure -a.srt", "-- measure"} {
		app := newApp(strings.NewReader(""), io.Discard, io.Discard)
		got, err := arrange(app, strings.Split("captally "+in, " "))
		var f *fault
		if !errors.As(err, &f) || f.code != exitMisuse {
			t.Errorf("%s: got %q and %v, want a misuse", in, got, err)
		}
	}
}

func TestNearest(t *testing.T) {
	words := []string{"check", "measure", "notes", "words"}
	for in, want := range map[string]string{
		"chekc": "check", "mesure": "measure", "note": "notes", "wrods": "words", "swords": "words",
		"cloak": "", "x": "", "": "", "measurement": "",
	} {
		if got := nearest(in, words); got != want {
			t.Errorf("nearest to %q is %q, want %q", in, got, want)
		}
	}
	// Damerau's four kinds of slip, one edit each, both ways.
	for _, pair := range [][2]string{{"as", "ass"}, {"as", "is"}, {"as", "sa"}, {"", "a"}} {
		a, b := []rune(pair[0]), []rune(pair[1])
		if edits(a, b) != 1 || edits(b, a) != 1 {
			t.Errorf("%q to %q: %d and %d edits, want 1", pair[0], pair[1], edits(a, b), edits(b, a))
		}
	}
	if d := edits([]rune("kitten"), []rune("sitting")); d != 3 {
		t.Errorf("kitten to sitting: %d edits, want 3", d) // the textbook example
	}
}
