package announce

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"captally.example/captally/segment/caption"
)

// A script is a short session written down with its sets marked:
//
//	Heel raises, ten. Up. {heel raise: One. Two. Three. } Rest, thirty seconds.
//
// "{name:" begins a counted set, "{name~" a timed one, "{name!" a timed balance set; "}" ends it.
type script struct {
	track *caption.Track
	sets  []SetSpan
	rests []RestSpan
}

func parseScript(t *testing.T, s string) script {
	t.Helper()
	var words []string
	var c script
	open := false
	for _, w := range strings.Fields(s) {
		switch {
		case w[0] == '{':
			open = true
			name := strings.ReplaceAll(w[1:len(w)-1], "_", " ")
			mark := w[len(w)-1]
			if n := len(c.sets); n > 0 {
				c.rests = append(c.rests, RestSpan{First: c.sets[n-1].Last, Last: len(words)})
			}
			c.sets = append(c.sets, SetSpan{First: len(words), Exercise: name, Timed: mark != ':', Balance: mark == '!'})
		case w == "}":
			if !open {
				t.Fatalf("a set ends that did not begin, before %q", words[max(0, len(words)-3):])
			}
			open = false
			c.sets[len(c.sets)-1].Last = len(words)
		default:
			words = append(words, w)
		}
	}
	c.track = trackOf(strings.Join(words, " "))
	return c
}

// announced writes what was found: doses, then rests, then sides.
func (c script) announced() string {
	m := Find(c.track)
	sides := Sides(c.track, c.sets, m)
	for i := range sides {
		c.sets[i].Side = sides[i].Side
	}
	var out []string
	for _, d := range Doses(c.track, c.sets, m) {
		out = append(out, dose(d))
	}
	out = append(out, "|")
	for _, d := range RestDoses(c.track, c.sets, c.rests, m) {
		out = append(out, dose(d))
	}
	out = append(out, "|")
	for _, s := range sides {
		out = append(out, s.Side.String()[:1])
	}
	return strings.Join(out, " ")
}

func dose(d Dose) string {
	if d.Value == 0 {
		return "-"
	}
	s := strconv.FormatFloat(d.Value, 'g', -1, 64)
	if d.Timed {
		s += "s"
	}
	return s
}

func TestSessions(t *testing.T) {
	for i, c := range []struct{ script, want string }{
		{`Welcome everyone. First up, sit to stand. Let's have ten. Ready, and up. {sit_to_stand: One. Two. Three. Nine. Ten. }
		Lovely. Have a rest, thirty seconds. Feet back under you. Same again, up. {sit_to_stand: One. Two. Nine. Ten. }
		Well done. A minute's rest. Now heel raises, fifteen of those. Up. {heel_raise: One. Two. Fourteen. Fifteen. }`,
			"10 10 15 | 30s 60s | b b b"},
		{`Everything today is eight reps. Rest thirty seconds between sets and a minute between exercises.
		Clam shells. Left side first, knees together, and open. {clam_shell: One. Two. Eight. }
		Roll over, other side. And open. {clam_shell: One. Two. Eight. }
		Bridges next. Lie on your back. Push up. {bridge: One. Two. Eight. }`,
			"8 8 8 | 30s 60s | l r b"},
		{`Side leg raise, twelve each leg. Stand on the right, lift the left leg. And go. {side_leg_raise: One. Two. Twelve. }
		Swap legs. And go. {side_leg_raise: One. Two. Twelve. }
		Shake it out. Forty-five seconds. Left leg again. Go. {side_leg_raise: One. Two. Twelve. }
		Right leg. Go. {side_leg_raise: One. Two. Twelve. }`,
			"12 12 12 12 | - 45s - | l r l r"},
		{`We work for forty seconds and rest for twenty. Marching first, forty seconds. Off we go. {marching~ Knees up. Ten seconds left. And stop. }
		Twenty seconds, breathe. Next, wall presses. Same forty. Go. {wall_press~ Keep pushing. Halfway. And rest. }
		Twenty seconds. Step ups, forty seconds. Start. {step_up~ Up, up, down, down. Five, four, three, two, one. Stop. }`,
			"40s 40s 40s | 20s 20s | b b b"},
		{`Single leg stand, thirty seconds each side. Hold on if you need to. Left leg first. Lift. {single_leg_stand! Look ahead. Ten more seconds. And down. }
		Change over, right leg. Lift. {single_leg_stand! Eyes up. Halfway. That's it. }
		Tandem stand now. Right foot in front, twenty seconds. Begin. {tandem_stand! Steady. Five seconds left. Done. }
		And the other foot in front. Begin. {tandem_stand! Steady. Down. }`,
			"30s 30s 20s 20s | - - - | l r r l"},
		{`Squats. We'll do ten. Ready, down. {squat: One. Two. Three. You look fresh, let's make it twelve. Four. Eleven. Twelve. }
		Take a minute. Second set of squats, back to ten. Down. {squat: One. Two. Ten. }`,
			"12 10 | 60s | b b"},
		{`Three rounds today. Round one is twelve of everything, round two is ten, round three is eight.
		Round one. Bridges, up. {bridge: One. Two. Twelve. } Now clams, open. {clam: One. Two. Twelve. }
		Water, thirty seconds. Round two. Bridges, up. {bridge: One. Two. Ten. } Clams. {clam: One. Two. Ten. }
		Round three. Bridges. {bridge: One. Two. Eight. } And clams. {clam: One. Two. Eight. }`,
			"12 12 10 10 8 8 | - 30s - - - | b b b b b b"},
		{`Toe raises are always twenty. We begin with step ups, ten each leg. Right leg leads. Up. {step_up: One. Two. Ten. }
		Left leg leads. Up. {step_up: One. Two. Ten. } Now toe raises. Up. {toe_raise: One. Two. Twenty. }`,
			"10 10 20 | - - | r l b"},
		{`Wrist curls with the tin. Fifteen with the right hand. {wrist_curl: One. Two. Fifteen. }
		Other hand, fifteen. {wrist_curl: One. Two. Fifteen. } Let it hang, half a minute.
		Pinch grip. Hold for ten seconds each time and do five. Left hand. Pinch. {pinch_grip: One. Two. Five. }`,
			"15 15 5 | - 30s | r l l"},
		{`Right, heel slides, mate. Ten on the left then ten on the right. Left heel in. {heel_slide: One. Two. Ten. }
		Righto, now the right. {heel_slide: One. Two. Ten. } I had a bloke in who did sixty of these a day for three weeks. No good.
		Quad squeeze, both legs, eight of them with a five second hold. Squeeze. {quad_squeeze: One. Two. Eight. }`,
			"10 10 8 | - - | l r b"},
		{`Plank, half a minute. Knees down if you must. And hold. {plank~ Breathe. Ten to go. And down. }
		Rest, one minute. Plank again, same half a minute. Up. {plank~ Breathe. And down. }
		Two minutes' rest, you earned it. Last plank, twenty seconds. Up. {plank~ Breathe. Down. }`,
			"30s 30s 20s | 60s 120s | b b b"},
		{`Lunges, alternating legs, twenty all told. Step. {lunge: One. Two. Twenty. } Good. Ninety seconds off.
		Lunges again, just sixteen. Step. {lunge: One. Two. Sixteen. }`,
			"20 16 | 90s | a a"},
		{`Okay y'all, shoulder press, two sets of twelve, minute in between. Press. {shoulder_press: One. Two. Twelve. }
		There's your minute starting. Sip some water. My cousin ran ten miles on Sunday, bless her. Set two, press. {shoulder_press: One. Two. Twelve. }`,
			"12 12 | 60s | b b"},
		{`Aye, so it's knee lifts. Six on each leg, a five second hold. Left knee up. {knee_lift: One. Two. Six. } Doon. Right knee noo. {knee_lift: One. Two. Six. }
		Have a seat, forty seconds. Page two of the sheet has this one. Now arm raises, a dozen, both arms. Up. {arm_raise: One. Twelve. }`,
			"6 6 12 | - 40s | l r b"},
		{`sit to stand ten of these and up {sit_to_stand: one two three nine ten } have a rest thirty seconds shake the legs okay again another ten and up {sit_to_stand: one two nine ten }
		brilliant one minute now have a drink next is heel raises and we want fifteen up on your toes {heel_raise: one two fourteen fifteen }`,
			"10 10 15 | 30s 60s | b b b"},
	} {
		t.Run(fmt.Sprint(i+1), func(t *testing.T) {
			if got := parseScript(t, c.script).announced(); got != c.want {
				t.Errorf("%s\n got %s\nwant %s", strings.Fields(c.script)[:8], got, c.want)
			}
		})
	}
}

func TestSideMentions(t *testing.T) {
	for line := range strings.Lines(sideSentences) {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		sentence, want, _ := strings.Cut(strings.TrimSuffix(line, " =>"), " => ")
		var got []string
		for _, m := range Find(trackOf(sentence)) {
			if m.Weight < 0.35 {
				continue
			}
			switch m.Kind {
			case Side:
				got = append(got, m.Side.String())
			case Swap:
				got = append(got, "swap")
			}
		}
		if g := strings.Join(got, " "); g != want {
			t.Errorf("%s\n  got  %s\n  want %s", sentence, g, want)
		}
	}
}

// Each line: a sentence => the sides it names.
const sideSentences = `
Left leg first. => left
On the right now. => right
Standing on your left. => left
Stand on the right leg. => right
Other leg. => swap
Change legs, please. => swap
Swap sides. => swap
And the other side. => swap
Right foot off, now. => left
Pick up your left foot and hold. => right
Left foot up on the step. => left
Roll to your left side. => left
With the right hand. => right
Left knee in. => left
Wrist curl, left arm. => left
Left, right, left, right, keep going. => left right alternate alternate
Alternating legs this time. => alternate
Right, let's begin. =>
Right then, folks. =>
All right, that's enough. =>
That's right, keep breathing. =>
You're doing all right. =>
Ten seconds left. =>
Three left. =>
Sit right at the back. =>
Right in front of the chair. =>
What have we left? =>
Tip to the left. => left
Set two, left. => left
Switch arms. => swap
`

func TestRoundsAndRemarks(t *testing.T) {
	for sentence, want := range map[string]string{
		"Round two, everybody.":      "round 2",
		"Second set now.":            "round 2",
		"Last round of the day.":     "round -1",
		"Set three.":                 "round 3",
		"We have three rounds.":      "rounds 3",
		"Halfway there.":             "halfway 0",
		"Same again, please.":        "again 0",
		"Have a breather.":           "rest 0",
		"You did round the corner.":  "",
		"Put the towel on the bench": "",
	} {
		got := ""
		for _, m := range Find(trackOf(sentence)) {
			switch m.Kind {
			case Round, Rounds, Halfway, Again, Rest:
				if got == "" {
					got = fmt.Sprintf("%v %g", m.Kind, m.Value)
				}
			}
		}
		if got != want {
			t.Errorf("%q: got %q, want %q", sentence, got, want)
		}
	}
}

func TestMentionsAreOrderedAndWeighed(t *testing.T) {
	track := readSession(t, "sessions/steady-feet.cue.srt")
	last := 0
	for _, m := range Find(track) {
		if m.First < last || m.Last <= m.First || m.Last > len(track.Words) || m.Weight <= 0 || m.Weight > 1 || m.Kind == None || m.High < m.Value {
			t.Errorf("%+v after word %d", m, last)
		}
		if m.At != track.Words[m.First].Time.At {
			t.Errorf("%+v is not at the time of its first word", m)
		}
		last = m.First
	}
	if last == 0 {
		t.Error("no mention at all")
	}
}

func TestNothingToRead(t *testing.T) {
	empty := &caption.Track{}
	if m := Find(empty); len(m) != 0 {
		t.Errorf("mentions in an empty track: %v", m)
	}
	if d := Doses(empty, nil, nil); len(d) != 0 {
		t.Errorf("doses without sets: %v", d)
	}
	one := trackOf("up")
	sets := []SetSpan{{First: 0, Last: 1}}
	if d := Doses(one, sets, Find(one)); d[0].Value != 0 {
		t.Errorf("a dose that nobody said: %v", d)
	}
	if r := RestDoses(one, sets, []RestSpan{{First: 1, Last: 1}}, nil); r[0].Value != 0 {
		t.Errorf("a rest that nobody said: %v", r)
	}
}

func TestLexiconErrors(t *testing.T) {
	for _, c := range []struct{ words, phrases, want string }{
		{"go now", "", `words.txt:1: expected CLASS: words, found "go"`},
		{wordsFile, "reps 1", "phrases.txt:1: expected KIND WEIGHT PATTERN"},
		{wordsFile, "# a note\njumps 1 #n", `phrases.txt:2: "jumps" is no kind`},
		{wordsFile, "reps+some 1 #n", `phrases.txt:1: "some" is no scope`},
		{wordsFile, "reps one #n", `phrases.txt:1: expected a weight, found "one"`},
		{wordsFile, "reps 1 #n of {nouns}", "phrases.txt:1: {nouns} is no class of words.txt"},
		{wordsFile, "reps 1 #n and #n", "phrases.txt:1: a second number in one phrase"},
		{wordsFile, "again 1 .. same", "phrases.txt:1: a phrase without a number begins with a word"},
		{wordsFile, "again 1 same||again", `phrases.txt:1: an empty word in "same||again"`},
		{"second: second", "", "words.txt: no class"},
	} {
		_, err := newLexicon(c.words, c.phrases)
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%.20q, %q: error %v, want %s", c.words, c.phrases, err, c.want)
		}
	}
}

// TestDoseStillHolds: where nothing is said for an exercise, the dose before holds on if it was done, and is not put upon it if not.
func TestDoseStillHolds(t *testing.T) {
	for _, c := range []struct {
		done int
		want string
	}{{10, "10"}, {7, "-"}, {0, "-"}} {
		s := parseScript(t, `Chair squats, ten of those. Down. {chair_squat: One. Two. Three. Seven. Eight. Nine. Ten. } Well done. Bridges now, on your back. Up. {bridge: One. Two. }`)
		s.sets[0].Count, s.sets[1].Count = 10, c.done
		if got := dose(Doses(s.track, s.sets, Find(s.track))[1]); got != c.want {
			t.Errorf("after ten, %d done: %s, want %s", c.done, got, c.want)
		}
	}
}
