package analyze

import (
	"strconv"
	"strings"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// A builder makes a session by hand, as a decoder would find it.
type builder struct{ segment.Session }

func newBuilder() *builder {
	return &builder{segment.Session{Track: &caption.Track{
		Name: "bands.vtt", Format: "webvtt", Timing: caption.TimingWord, Language: "en",
	}}}
}

// say writes words into the track, the first at the given second and the others 0.4 s apart, and returns their places.
func (b *builder) say(at float64, text string) (first, last int) {
	t := b.Track
	first = len(t.Words)
	for i, w := range strings.Fields(text) {
		bare := strings.TrimRight(w, ",.?!")
		t.Words = append(t.Words, caption.Word{
			Text: bare, Fold: strings.ToLower(bare), After: w[len(bare):], Time: spread(at+0.4*float64(i), 0.2), Line: first + i + 1,
		})
	}
	t.Duration = max(t.Duration, caption.At(at+0.4*float64(len(t.Words)-first)))
	return first, len(t.Words)
}

func (b *builder) remark(at float64, text string) segment.Remark {
	first, last := b.say(at, text)
	return segment.Remark{Text: strings.TrimRight(text, "."), At: caption.At(at), First: first, Last: last}
}

// dose says an announcement.
func (b *builder) dose(at float64, text string, reps int, seconds float64) segment.Dose {
	first, last := b.say(at, text)
	return segment.Dose{Reps: reps, Seconds: seconds, At: caption.At(at), First: first, Last: last}
}

// counted adds a set that counts the numbers, one a repetition, pace seconds apart; the first is said at start+pace.
func (b *builder) counted(name string, side segment.Side, dose segment.Dose, start, pace float64, numbers ...int) *segment.Set {
	n := len(numbers)
	s := segment.Set{
		Kind: segment.Work, Exercise: segment.Remark{Text: name, At: caption.At(start)}, Side: side,
		Span: between(start, start+pace*float64(n)), Announced: dose, Counted: true,
		Reps: n, RepsLow: n, RepsHigh: n, LastNumber: numbers[n-1], Pace: pace,
		Tension: segment.Length{Value: pace * float64(n), Low: pace*float64(n) - 0.5, High: pace*float64(n) + 0.5},
	}
	for i, number := range numbers {
		at := start + pace*float64(i+1)
		first, _ := b.say(at, strconv.Itoa(number)+",")
		s.Count = append(s.Count, segment.Number{Said: number, Word: first, At: spread(at, 0.2), Rep: i + 1, Origin: segment.Heard, Prob: 1})
	}
	b.Sets = append(b.Sets, s)
	b.phase(segment.Work, start, start+pace*float64(n), name)
	return &b.Sets[len(b.Sets)-1]
}

// timed adds a set that lasts some seconds, known to half a second each way.
func (b *builder) timed(kind segment.Kind, name string, side segment.Side, dose segment.Dose, start, seconds float64) *segment.Set {
	length := segment.Length{Value: seconds, Low: seconds - 0.5, High: seconds + 0.5}
	b.Sets = append(b.Sets, segment.Set{
		Kind: kind, Exercise: segment.Remark{Text: name, At: caption.At(start)}, Side: side,
		Span: between(start, start+seconds), Announced: dose, Performed: length, Tension: length,
	})
	b.phase(kind, start, start+seconds, name)
	return &b.Sets[len(b.Sets)-1]
}

// rest adds a rest, known to half a second each way; announced is 0 where nothing was.
func (b *builder) rest(start, seconds, announced float64) *segment.Pause {
	b.Rests = append(b.Rests, segment.Pause{
		Span: between(start, start+seconds), Length: segment.Length{Value: seconds, Low: seconds - 0.5, High: seconds + 0.5},
		Announced: announced, At: caption.At(start),
	})
	b.phase(segment.Rest, start, start+seconds, "")
	return &b.Rests[len(b.Rests)-1]
}

// phase adds a phase, and talk before it where there is a gap.
func (b *builder) phase(kind segment.Kind, start, end float64, label string) {
	last := caption.Time(0)
	if n := len(b.Phases); n > 0 {
		last = b.Phases[n-1].End
	}
	if caption.At(start) > last {
		b.Phases = append(b.Phases, segment.Phase{Kind: segment.Talk, Start: last, End: caption.At(start), Confidence: 0.9})
	}
	b.Phases = append(b.Phases, segment.Phase{Kind: kind, Start: caption.At(start), End: caption.At(end), Confidence: 0.95, Label: label})
}

func spread(at, half float64) caption.Spread {
	return caption.Spread{At: caption.At(at), Low: caption.At(at - half), High: caption.At(at + half), From: caption.OnWord}
}

func between(start, end float64) segment.Span {
	return segment.Span{Start: spread(start, 0.2), End: spread(end, 0.2)}
}

// sample is a session of an invented clinic with something of everything.
func sample() *segment.Session {
	b := newBuilder()
	title := b.remark(1, "Welcome to strong arms with the soft band.")
	b.Title = &title
	level := b.remark(6, "It is for anybody who can sit for ten minutes.")
	b.Level = &level
	b.Equipment = []segment.Remark{b.remark(12, "You need a soft band and a chair.")}
	b.Cautions = []segment.Remark{b.remark(18, "Stop if you feel dizzy.")}
	b.Options = []segment.Remark{b.remark(24, "For less, hold the band further out.")}
	b.Afterwards = []segment.Remark{b.remark(27, "Do this twice a week.")}
	b.phase(segment.WarmUp, 30, 150, "")

	dose := b.dose(155, "Chest press, ten of them.", 10, 0)
	press := b.counted("chest press", segment.SideUnknown, dose, 160, 3, 1, 2, 3, 4, 5, 6, 7, 8, 8, 9, 10)
	press.Slips = []segment.Slip{{
		Kind: segment.Repeated, At: press.Count[8].At, First: press.Count[8].Word, Last: press.Count[8].Word + 1, Said: 8, Expected: 9, Session: 0.94, Captions: 0.03,
	}}
	b.say(194, "Rest for thirty seconds.")
	b.rest(193, 52, 30).At = caption.At(194)

	dose = b.dose(246, "Eight a side now.", 8, 0)
	left := b.counted("leg push", segment.Left, dose, 250, 4, 1, 2, 3, 4, 5, 6, 7, 8)
	left.Slips = []segment.Slip{{
		Kind: segment.Doubled, At: left.Count[3].At, First: left.Count[3].Word, Last: left.Count[3].Word + 1, Said: 4, Expected: 4, Session: 0.05, Captions: 0.9,
	}}
	right := b.counted("leg push", segment.Right, dose, 290, 4, 1, 2, 3, 4, 6, 7, 8)
	right.Slips = []segment.Slip{{
		Kind: segment.Skipped, At: right.Count[4].At, First: right.Count[4].Word, Last: right.Count[4].Word + 1, Said: 6, Expected: 5, Session: 0.12, Captions: 0.3,
	}}
	b.rest(318, 20, 0)

	dose = b.dose(338, "Thirty seconds on one leg.", 0, 30)
	stand := b.timed(segment.Balance, "one leg stand", segment.Left, dose, 345, 31)
	first, last := b.say(360, "Ten more seconds.")
	stand.TimeCues = []segment.TimeCue{{At: spread(360, 0.2), Said: 10, Actual: 16, First: first, Last: last}}
	b.timed(segment.Balance, "one leg stand", segment.Right, dose, 380, 22)
	b.phase(segment.CoolDown, 410, 530, "")
	b.Track.Warnings = []caption.Warning{{Line: 12, Text: "cue ends before it starts, read as ending at the next", Count: 2}, {Text: "read as windows-1252", Count: 1}}
	b.Warnings = []string{"no effort scale was heard"}
	return &b.Session
}
