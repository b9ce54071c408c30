package review

import "captally.example/captally/analyze"

// weights say how much a kind of finding matters to somebody who exercises along with the video: a dose that was not kept
// before a slip of the tongue, a mistake of the captions last. Common practice, no source.
var weights = map[string]float64{
	"count-short": 1, "count-over": 1, "time-short": 1, "time-over": 1, "rest-missing": 0.9, "dose-unclear": 0.8,
	"sides-uneven": 0.8, "count-skipped": 0.75, "count-repeated": 0.75, "count-restarted": 0.75, "count-jumped": 0.75, "count-lost": 0.75,
	"rest-short": 0.7, "rest-over": 0.5, "time-cue-off": 0.5,
	"caption-gap": 0.3, "caption-misheard": 0.3, "caption-doubled": 0.3,
}

// usualWeight is that of a kind which has none above.
const usualWeight = 0.5

// matters is how high a finding stands in the list: how probable it is times how much its kind matters, and half of that
// where the captions are to blame and nobody need record again.
func matters(f analyze.Finding) float64 {
	w, known := weights[f.Kind]
	if !known {
		w = usualWeight
	}
	switch f.Cause {
	case "captions":
		w /= 2
	case "unsure": // it may be of the session after all, whatever it is called
		w = max(w, usualWeight)
	}
	return f.Probability * w
}

// weight is how much a finding matters with what follows from it: half as much in the warm-up and the cool-down, whose moves
// are hardly ever prescribed.
func weight(r *analyze.Report, j judged) float64 {
	most := matters(j.Finding)
	for _, f := range j.follow {
		most = max(most, matters(f))
	}
	if set := setOf(r, j.Finding); set != nil && (set.Phase == "warm-up" || set.Phase == "cool-down") {
		most /= 2
	}
	return most
}
