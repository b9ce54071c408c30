package segment

import (
	"math"

	"captally.example/captally/segment/caption"
)

// In a transcript with a time on each block the words of a block stand as evenly as they can. But people talk in a flow until
// "go" and are silent after it, so that a set begins nearer to where the flow alone would have ended.

const (
	sentencePause  = 0.4  // seconds between the sentences of a flow of talk
	startLate      = 0.45 // share of the way from there to the word's own time at which the set begins; fitted on the labelled sessions
	startUnsure    = 0.3  // its standard deviation, as a share of that way
	blockSilence   = 0.4  // share of a block's silence that may lie at one place
	leastBlockSide = 0.8  // seconds: the least standard deviation of a beginning or end in a block
)

// flow sums up, for each word, how long the words of its block up to it take in a flow of talk, in seconds.
func (x *text) flow() []float64 {
	out := make([]float64, len(x.w))
	for k := range x.track.Cues {
		c := &x.track.Cues[k]
		s := 0.0
		for i := c.First; i < c.Last; i++ {
			s += wordLength(&x.w[i])
			out[i] = s
			if x.w[i].stop == sentence {
				s += sentencePause
			}
		}
	}
	return out
}

// flowing returns how long the words of a block before word i take in a flow of talk, in seconds.
func (x *text) flowing(c *caption.Cue, i int) float64 {
	if i == c.First {
		return 0
	}
	return x.flows[i-1]
}

// begin is when a timed set begins whose first word is i, where the words before it are its announcement.
func (x *text) begin(i int) instant {
	own := instant{x.w[i-1].end, wordSD(x.track.Words[i-1].Time)}
	if x.timing != caption.TimingBlock {
		return own
	}
	c := &x.track.Cues[x.track.Words[i-1].Cue]
	early := c.Start.Seconds() + x.flowing(c, i)
	late := own.t - early
	if late <= 0 {
		return instant{own.t, leastBlockSide}
	}
	return instant{early + float64(startLate*late), math.Hypot(leastBlockSide, startUnsure*late)}
}

// pauseBefore is how long the silence before word i may be, in seconds.
func (x *text) pauseBefore(i int) float64 {
	s := x.silence(i)
	if x.timing != caption.TimingBlock {
		return s
	}
	c := &x.track.Cues[x.track.Words[i-1].Cue]
	return math.Max(s, blockSilence*((c.End-c.Start).Seconds()-x.flowing(c, c.Last)))
}
