package numeral

import (
	"slices"
	"strings"
	"testing"
)

// cost returns the cost of n behind word; ok is false where n is no guess.
func cost(word string, n int) (c float64, ok bool) {
	for _, g := range SoundsLike(word) {
		if g.Value == n {
			return g.Cost, true
		}
	}
	return 0, false
}

func TestSoundsLikeFirst(t *testing.T) {
	for word, want := range map[string]int{
		"won": 1, "to": 2, "too": 2, "tree": 3, "free": 3, "for": 4, "fore": 4, "far": 4, "fine": 5, "hive": 5, "sick": 6, "chicks": 6,
		"sheets": 6, "sucks": 6, "heaven": 7, "ate": 8, "age": 8, "kate": 8, "mine": 9, "tend": 10, "didn't": 10, "then": 10, "leaven": 11,
		"shelf": 12, "search mean": 13, "certain": 13, "the team": 18, "when do": 20,
		// not in the data file
		"sevens": 7, "heavens": 7, "thirtieth": 30, "sixer": 6, "sticks": 6, "weight": 8, "sieven": 7,
		"fourteens": 14, "tweny": 20, "twelf": 12, "elevin": 11,
	} {
		if g := SoundsLike(word); len(g) == 0 || g[0].Value != want {
			t.Errorf("SoundsLike(%q) = %v, want %d first", word, g, want)
		}
	}
}

func TestSoundsLikeNumbers(t *testing.T) {
	for word, n := range map[string]int{"fifty": 15, "forty": 14, "40": 14, "thirty": 13, "60": 16, "eighty": 18, "nineteen": 90, "eighteen": 80} {
		g := SoundsLike(word)
		own, ok := Single(word)
		if !ok || g[0] != (Guess{own, 0}) {
			t.Errorf("SoundsLike(%q) = %v, want itself first at cost 0", word, g)
		}
		if c, ok := cost(word, n); !ok || c <= 0 || c > 3 {
			t.Errorf("%d behind %q costs %g, %v, want a finite cost up to 3", n, word, c, ok)
		}
	}
	if g := SoundsLike("21"); len(g) != 1 || g[0] != (Guess{21, 0}) {
		t.Errorf("SoundsLike(21) = %v", g)
	}
}

func TestSoundsLikeNothing(t *testing.T) {
	for _, word := range []string{"shoulder", "breathing", "comfortable", "worktop", "elbow", "quickly", "kitchen", "", "...", "¿qué?", "physiotherapist"} {
		if g := SoundsLike(word); len(g) != 0 {
			t.Errorf("SoundsLike(%q) = %v, want none", word, g)
		}
	}
}

func TestSoundsLikeIsOrdered(t *testing.T) {
	for _, word := range []string{"to", "certain", "the team", "fifty", "can", "twenty", "wine"} {
		g := SoundsLike(word)
		seen := map[int]bool{}
		for i := range g {
			if seen[g[i].Value] || i > 0 && g[i].Cost < g[i-1].Cost || g[i].Cost > farthest || g[i].Value < 1 || g[i].Value > 100 {
				t.Errorf("SoundsLike(%q) = %v", word, g)
			}
			seen[g[i].Value] = true
		}
	}
}

func TestCommonness(t *testing.T) {
	if Commonness("to") < 10 || Commonness("chicks") != 0 || Commonness("for") < Commonness("free") {
		t.Errorf("to %g, for %g, free %g, chicks %g", Commonness("to"), Commonness("for"), Commonness("free"), Commonness("chicks"))
	}
}

func TestParseHeardErrors(t *testing.T) {
	for text, want := range map[string]string{
		"say one wVn":             `heard.txt:1: expected a number, found "one"`,
		"# note\n\nheard 1 x won": `heard.txt:3: expected a cost of 0 or more, found "x"`,
		"heard 1 -1 won":          "heard.txt:1: expected a cost",
		"say 1 w?n":               `heard.txt:1: "?n" is no sound`,
		"say 1 wVnwVnwVnwVnwVn":   "heard.txt:1: more than 12 sounds",
		"common 0 the":            "heard.txt:1: expected a rate above 0",
		"heard 1 2":               "heard.txt:1: expected say NUMBER SOUNDS",
		"like 1 2 three":          "heard.txt:1: expected say NUMBER SOUNDS",
	} {
		if _, err := parseHeard(text); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("parseHeard(%q): %v, want %s", text, err, want)
		}
	}
}

// Deletion, swap and bound must agree: no pair may lie nearer than the bound that lets it be skipped.
func TestBoundIsBelowDistance(t *testing.T) {
	m := newMeasure()
	var keys [][]byte
	for _, w := range strings.Fields("age kate chicks then shelf certain mean hurdle lift squeeze knee breathe swine surgery fifty twenty eleven two five left hold wait vision judge which thumb") {
		var buf [longest]byte
		k, fits := key(w, &buf)
		if !fits {
			t.Fatalf("%q is too long", w)
		}
		k = slices.Clone(k)
		m.encode(k)
		keys = append(keys, k)
	}
	for _, a := range keys {
		for _, b := range keys {
			var c comparison
			c.start(m, a)
			d := c.distance(m, a, b, 1e6)
			low := m.atLeast(a, b)
			if low+leastLost*int32(max(0, len(b)-len(a))) > d {
				t.Errorf("bound %d above distance %d", low, d)
			}
			var table needTable
			beside := m.needs(b)
			table.put(5, &beside)
			var all sums
			table.atLeast(a, &all)
			if l := int32(all[1] >> 16); l != low || all[0] != 0 {
				t.Errorf("in lanes the bound is %d, alone %d", l, low)
			}
			var back comparison
			back.start(m, b)
			if e := back.distance(m, b, a, 1e6); e != d {
				t.Errorf("distance %d one way, %d the other", d, e)
			}
		}
	}
}

func BenchmarkSoundsLike(b *testing.B) {
	for _, word := range []string{"shoulder", "chair", "squeeze", "chicks", "fifty"} {
		b.Run(word, func(b *testing.B) {
			for b.Loop() {
				SoundsLike(word)
			}
		})
	}
}

func BenchmarkParseHeard(b *testing.B) {
	for b.Loop() {
		if _, err := parseHeard(heardFile); err != nil {
			b.Fatal(err)
		}
	}
}

func TestLeastLost(t *testing.T) {
	for _, s := range []byte(sounds) {
		if lost(s) < leastLost {
			t.Errorf("%c is lost for %d", s, lost(s))
		}
	}
}

// TestPairs: two words sound like what they sound like together.
func TestPairs(t *testing.T) {
	words := strings.Fields("a so the for search mean means i'm her team teams a-team know mine to essential escape e es hello y no we by to-an chair shoulder squeeze sick teen tin tea")
	pairs := NewPairs(len(words))
	for i, a := range words {
		for j, b := range words {
			for _, among := range []uint64{every, 1 << 13, 1<<6 | 1<<16, 1<<40 | 1<<60} {
				want := SoundsLikeOneOf(a+" "+b, among)
				if got := pairs.SoundsLikeOneOf(a, i, b, j, among, farthest); !slices.Equal(got, want) {
					t.Errorf("%q %q sounds like %v, not %v", a, b, want, got)
				}
				const most = 2.3
				dear := func(g Guess) bool { return g.Cost > most }
				got := slices.DeleteFunc(pairs.SoundsLikeOneOf(a, i, b, j, among, most), dear)
				if want = slices.DeleteFunc(want, dear); !slices.Equal(got, want) {
					t.Errorf("%q %q sounds like %v for %g at most, not %v", a, b, want, most, got)
				}
			}
		}
	}
}
