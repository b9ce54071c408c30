package naming

import (
	"slices"
	"strings"
	"testing"
	"time"

	"captally.example/captally/segment/caption"
)

// say makes a track of cues, one a sentence, half a second a word. "|" stands where a set begins, "||" where it ends.
func say(text string) (*caption.Track, []SetSpan) {
	track := &caption.Track{Timing: caption.TimingCue}
	var sets []SetSpan
	cue := 0
	for w := range strings.FieldsSeq(text) {
		n := len(track.Words)
		switch w {
		case "|":
			after := 0
			if k := len(sets); k > 0 {
				after = sets[k-1].Last
			}
			sets = append(sets, SetSpan{First: n, Last: n, After: after, Counted: true})
			continue
		case "||":
			sets[len(sets)-1].Last = n
			continue
		}
		core := strings.TrimRight(w, ".,?!")
		at := caption.Time(time.Duration(n) * time.Second / 2)
		track.Words = append(track.Words, caption.Word{
			Text: core, Fold: strings.ToLower(core), After: w[len(core):], Cue: cue,
			Time: caption.Spread{At: at, Low: at, High: at, From: caption.WithinCue},
		})
		if strings.HasSuffix(w, ".") {
			cue++
		}
	}
	return track, sets
}

// unpunctuated takes the punctuation from a track and sets pauses in its place: a second for a full stop, 0.3 s for a comma.
func unpunctuated(track *caption.Track) *caption.Track {
	out := *track
	out.Timing = caption.TimingWord
	out.Words = nil
	at := time.Duration(0)
	for _, w := range track.Words {
		mark := w.After
		w.Text, w.After = w.Fold, ""
		w.Time = caption.Spread{At: caption.Time(at), Low: caption.Time(at), High: caption.Time(at), From: caption.OnWord}
		at += 120*time.Millisecond + time.Duration(len(w.Fold))*60*time.Millisecond
		switch mark {
		case "":
		case ",":
			at += 300 * time.Millisecond
		default:
			at += time.Second
		}
		out.Words = append(out.Words, w)
	}
	return &out
}

// Lead-ins in many voices: "|" where a set begins, "||" where it ends; the names wanted, by set.
var leadIns = []struct{ text, want string }{
	{"First exercise is the bicep curl. Elbows in. And curl. | One. Two. Three. ||", "bicep curl"},
	{"Right, on to wall push-ups then. Hands flat. Ready. | One. Two. || Rest. Second set of wall push-ups. | One. Two. ||", "wall push-ups; wall push-ups"},
	{"Clam shells, ten of those, left side first. Open. | One. Two. || And the other side. | One. Two. ||", "clam shells; clam shells"},
	{"Now we've the heel-toe walk. Off we go. | One. Two. || Grand. Next it's marching on the spot. Begin. | Halfway. Stop. ||", "heel-toe walk; marching on the spot"},
	{"Okay y'all, this one's called the suitcase carry. Grab that bag. Y'all ready. Go. | Halfway. And stop. ||", "suitcase carry"},
	{"Next up, shoulder blade squeezes. Sit tall. Eight of them. Squeeze. | One. Two. Three. ||", "shoulder blade squeezes"},
	{"I want you on the mat for pelvic tilts. Knees bent. Pelvic tilts, a dozen, go. | One. Two. || Thirty seconds. Same again. | One. Two. ||", "pelvic tilts; pelvic tilts"},
	{"Aye, both hands on the rail. Mini squats, ten, wee ones. Down. | One. Two. Three. ||", "mini squats"},
	{"We are going to do ankle pumps. Toes up and down. Ankle pumps, twenty. Begin. | One. Two. Three. ||", "ankle pumps"},
	{"My uncle built a wall once, and he stepped off it. Anyway, bridges. Bottom up. Bridges, ten, and lift. | One. Two. ||", "bridges"},
	{"Right, tandem stand next. Left foot in front. Thirty seconds, starting now. | Halfway. And relax. || Swap feet. Right foot in front, go. | Ten more. Done. ||", "tandem stand; tandem stand"},
	{"It's the putty pinch, loves. Between finger and thumb. Right hand first. Putty pinch, five. | One. Two. || Now the left hand, five. | One. Two. ||", "putty pinch; putty pinch"},
	{"Station one, step ups. Station two, bent over rows. Let's start at station one. Step ups, ten. Go. | One. Two. || On to station two. Bent over rows, ten. Pull. | One. Two. || Round two. Step ups again. Go. | One. Two. || Rows. Pull. | One. Two. ||",
		"step ups; bent over rows; step ups; bent over rows"},
	{"Last one is the doorway stretch. Arm on the frame. Twenty seconds, go. | Ten. And ease off. || Other arm. Go. | Ten. And off. ||", "doorway stretch; doorway stretch"},
	{"Lie down for the dead bug. Arms up. Dead bug, six a side. And go. | One. Two. ||", "dead bug"},
	{"Let us take the towel. Towel wringing, slowly, both hands. Five times. Twist. | One. Two. ||", "towel wringing"},
	{"Chin to chest, and hold it there for ten. | One. Two. Three. || Ear to shoulder now, left one. Ten. | One. Two. ||", "chin to chest; ear to shoulder"},
	{"Have a sip. Then we'll have some knee extensions, right leg. Kick. | One. Two. || And the left leg. Kick. | One. Two. ||", "knee extensions; knee extensions"},
	{"That was the leg press. Now for calf raises. Hold the chair. Up. | One. Two. ||", "calf raises"},
	{"Don't let the hip drop. Side plank, left, twenty seconds. Go. | Ten. Stop. ||", "side plank"},
}

func TestNames(t *testing.T) {
	for _, c := range leadIns {
		track, sets := say(c.text)
		for _, track := range []*caption.Track{track, unpunctuated(track)} {
			var got, want []string
			for _, n := range Names(track, sets) {
				got = append(got, contentKey(n.Text))
			}
			for s := range strings.SplitSeq(c.want, "; ") {
				want = append(want, contentKey(s))
			}
			if g, w := strings.Join(got, "; "), strings.Join(want, "; "); g != w {
				t.Errorf("%s (%v)\n got %s\nwant %s", c.text, track.Timing, g, w)
			}
		}
	}
}

// contentKey is a name by its stems, hyphens taken as blanks.
func contentKey(name string) string {
	words := strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == '-' })
	for i, w := range words {
		words[i] = stem(w)
	}
	return strings.Join(words, " ")
}

func TestNamesPointAtTheirWords(t *testing.T) {
	track, sets := say("Next is the wrist curl. Palm up. And up. | One. Two. || Other hand. | One. Two. ||")
	names := Names(track, sets)
	for k, n := range names {
		if got := (&talk{words: track.Words}).text(n.First, n.Last); got != "wrist curl" {
			t.Errorf("set %d: words %d to %d are %q", k, n.First, n.Last, got)
		}
		if n.Confidence <= 0 || n.Confidence > 1 {
			t.Errorf("set %d: confidence %g", k, n.Confidence)
		}
	}
	if names[0].Carried || !names[1].Carried {
		t.Errorf("carried %v, %v; only the second set has no name of its own", names[0].Carried, names[1].Carried)
	}
}

func TestNoName(t *testing.T) {
	track, sets := say("Hello there. Are we all well. Good. Off we go then. | One. Two. Three. ||")
	if n := Names(track, sets)[0]; n.Text != "" {
		t.Errorf("named %q where nothing was said", n.Text)
	}
	if n := Names(track, nil); n != nil {
		t.Errorf("names %v for no sets", n)
	}
	if n := Names(&caption.Track{}, []SetSpan{{}}); len(n) != 1 || n[0].Text != "" {
		t.Errorf("names %v in an empty track", n)
	}
}

// TestNameByItsSound garbles every mention, as a weak recogniser would.
func TestNameByItsSound(t *testing.T) {
	track, sets := say("now it's the hill raisins hands on the chair and up | one two three || half a minute round to of the heel races | one two || steep ups next whole foot on the stare go | one two ||")
	for i := range track.Words {
		track.Words[i].Cue = i / 40
	}
	names := Names(track, sets)
	for k, want := range []string{"heel raise", "heel raise", "step up"} {
		if names[k].Text != want || !names[k].Respelled {
			t.Errorf("set %d: %+v, want %s by its sound", k, names[k], want)
		}
	}
}

func TestMentions(t *testing.T) {
	track, _ := say("Good morning. I am fond of cake. Next is the hamstring curl. Bend the knee. Lovely.")
	ms := Mentions(track)
	if len(ms) != 1 || (&talk{words: track.Words}).text(ms[0].First, ms[0].Last) != "hamstring curl" {
		t.Fatalf("mentions %v, want the hamstring curl alone", ms)
	}
	for i := 1; i < len(ms); i++ {
		if ms[i].First < ms[i-1].Last {
			t.Errorf("mentions overlap: %v", ms)
		}
	}
}

func TestBalanceHint(t *testing.T) {
	for _, name := range []string{"tandem stand", "one leg stand", "heel-toe walk", "sideways steps", "flamingo stand", "eyes shut balance", "standing on the left leg"} {
		if p := BalanceHint(name, nil); p < 0.7 {
			t.Errorf("%s: %.2f", name, p)
		}
	}
	for _, name := range []string{"chest press", "sit to stand", "heel raises", "step ups", "wrist stretch", ""} {
		if p := BalanceHint(name, nil); p > 0.2 {
			t.Errorf("%s: %.2f", name, p)
		}
	}
	track, _ := say("That's the strength done. Right, balance exercises next.")
	if p := BalanceHint("star shape", track.Words); p < 0.4 || p <= BalanceHint("star shape", nil) {
		t.Errorf("the talk before it adds too little: %.2f", p)
	}
}

func TestDataFiles(t *testing.T) {
	if _, err := loadLexicon(); err != nil {
		t.Error(err)
	}
	if _, err := loadBalance(); err != nil {
		t.Error(err)
	}
	for f := range nFeatures {
		if table[f].name == "" {
			t.Errorf("feature %d has no name", f)
		}
		if table[f].weight == 0 {
			t.Errorf("%s: no weight", table[f].name)
		}
	}
}

func TestStem(t *testing.T) {
	for in, want := range map[string]string{
		"raises": "raise", "presses": "press", "stretches": "stretch", "ups": "up", "hopping": "hop", "marching": "march",
		"press": "press", "is": "is", "circles": "circle", "bodies": "body", "walks": "walk",
	} {
		if got := stem(in); got != want {
			t.Errorf("stem(%q) = %q, want %q", in, got, want)
		}
	}
}

// TestSuffixes compares the distance of a name from every ending of a text with the plain recursion.
func TestSuffixes(t *testing.T) {
	c := newCosts()
	var plain func(a, b []byte) int
	plain = func(a, b []byte) int {
		switch {
		case len(a) == 0 && len(b) == 0:
			return 0
		case len(a) == 0:
			return plain(a, b[1:]) + int(c.lost[b[0]])
		case len(b) == 0:
			return plain(a[1:], b) + int(c.lost[a[0]])
		}
		return min(plain(a[1:], b[1:])+int(c.apart[a[0]][b[0]]), plain(a[1:], b)+int(c.lost[a[0]]), plain(a, b[1:])+int(c.lost[b[0]]))
	}
	for _, p := range [][2]string{{"heel", "hill"}, {"step up", "check ups"}, {"thumb", "some"}, {"row", "you"}} {
		name, text := appendSounds(nil, strings.ReplaceAll(p[0], " ", "")), appendSounds(nil, strings.ReplaceAll(p[1], " ", ""))
		for _, most := range []int{1000, 200, 100, 60} {
			got, ok := c.suffixes(name, text, uint16(most))
			for n := range len(text) + 1 {
				want := plain(name, text[len(text)-n:])
				if !ok {
					got[n] = uint16(most) + 1
				}
				if int(got[n]) != want && (want <= most || int(got[n]) <= most) {
					t.Errorf("%s and the last %d sounds of %s, up to %d: %d, want %d", p[0], n, p[1], most, got[n], want)
				}
			}
		}
	}
}

// TestSearch compares the bit-vector search with a table of edit distances, for names of several lengths side by side.
func TestSearch(t *testing.T) {
	var names []catalogued
	for _, w := range []string{"stpk", "ktptsktpsltmkts", "s", "aio", "ltp", "ppstkkts"} {
		names = append(names, catalogued{skeleton: skeletonOfName([]byte(w))})
	}
	text := []uint8{5, 2, 1, 3, 5, 1, 3, 2, 2, 7, 5, 2, 6, 1, 3, 3, 2, 1, 2, 5, 3, 2, 1, 5, 7, 2, 6, 3, 2, 5}
	for limit := range 4 {
		got := make([][]int, len(names))
		for i, p := range newPacks(names) {
			p.search(text, [lanes]int{limit, limit, limit, limit}, func(lane, end int) { got[i*lanes+lane] = append(got[i*lanes+lane], end) })
		}
		for i := range names {
			if want := endsWithin(names[i].skeleton, text, limit); !slices.Equal(got[i], want) {
				t.Errorf("%v within %d: ends %v, want %v", names[i].skeleton, limit, got[i], want)
			}
		}
	}
}

// endsWithin returns the ends in text of the places that are at most limit single changes away from a pattern, and fewer than its length.
func endsWithin(pattern, text []uint8, limit int) (ends []int) {
	row := make([]int, len(pattern)+1)
	for i := range row {
		row[i] = i
	}
	for i, x := range text {
		next := make([]int, len(row))
		for j := 1; j < len(row); j++ {
			cost := 1
			if pattern[j-1] == x {
				cost = 0
			}
			next[j] = min(row[j-1]+cost, row[j]+1, next[j-1]+1)
		}
		row = next
		if d := row[len(pattern)]; d <= limit && d < len(pattern) {
			ends = append(ends, i+1)
		}
	}
	return ends
}

func TestOddNames(t *testing.T) {
	for _, text := range []string{"aia yoo hoo aeiou aia uoiea | one two ||", "| ||", "one | || two | ||", "- -- ' 3-2-1 x | 1 2 ||"} {
		track, sets := say(text)
		if got := Names(track, sets); len(got) != len(sets) {
			t.Errorf("%q: %d names for %d sets", text, len(got), len(sets))
		}
		Mentions(track)
	}
	vowels := newPacks([]catalogued{{skeleton: skeletonOfName([]byte("iaoiao"))}})
	vowels[0].search([]uint8{1, 2, 3}, [lanes]int{1, 1, 1, 1}, func(int, int) { t.Error("a name of vowels alone was found") })
}

func TestDoingIsNoName(t *testing.T) {
	said := strings.Fields("now we hold a plank for twenty seconds hold the ball tight")
	tk := &talk{words: make([]caption.Word, len(said))}
	for i, w := range said {
		tk.words[i].Fold = w
	}
	for want, at := range map[string][2]int{"plank": {2, 5}, "ball": {8, 11}, "hold the": {8, 10}, "seconds hold the": {7, 10}} {
		if got := tk.text(at[0], at[1]); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
