package naming

import (
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

func TestNames(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"First exercise is the bicep curl. Elbows in. And curl. | One. Two. Three. || ", "bicep curl"},
		{"Right, on to wall push-ups then. Hands flat. Ready. | One. Two. || Rest. Second set of wall push-ups. | One. Two. ||", "wall push-ups; wall push-ups"},
		{"Clam shells, ten of those, left side first. Open. | One. Two. || And the other side. | One. Two. ||", "clam shells; clam shells"},
		{"Now we've the heel-toe walk. Off we go. | One. Two. || Grand. Next it's marching on the spot. Begin. | Halfway. Stop. ||", "heel-toe walk; marching on the spot"},
	} {
		track, sets := say(c.text)
		var got []string
		for _, n := range Names(track, sets) {
			got = append(got, n.Text)
		}
		if s := strings.Join(got, "; "); s != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.text, s, c.want)
		}
	}
}
