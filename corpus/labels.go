package corpus

import "math"

// labels returns the kind of phase in the middle of each full second of a session, "talk" between phases.
func labels[P any](phases []P, of func(P) (kind string, s span), duration float64) []string {
	out := make([]string, int(duration))
	for t := range out {
		out[t] = "talk"
		for _, p := range phases {
			if kind, s := of(p); s.start <= float64(t)+0.5 && float64(t)+0.5 < s.end {
				out[t] = kind
				break
			}
		}
	}
	return out
}

// allow returns the truth's labels, changed to what was found where both readings are right: a gap of at most eitherWay seconds
// between two sets, with no rest announced, may be called talk or rest.
func allow(truth *Truth, ref, found []string) []string {
	out := append([]string(nil), ref...)
	for i := 1; i+1 < len(truth.Phases); i++ {
		before, p, after := truth.Phases[i-1], truth.Phases[i], truth.Phases[i+1]
		gap := span{p.Start, p.End}
		if !idle(p.Kind) || gap.length() > eitherWay || !exertion(before.Kind) || !exertion(after.Kind) || truth.restAnnounced(gap) {
			continue
		}
		for t := int(p.Start); t < min(len(out), int(p.End)+1); t++ {
			if out[t] == p.Kind && idle(found[t]) {
				out[t] = found[t]
			}
		}
	}
	return out
}

func idle(kind string) bool     { return kind == "talk" || kind == "rest" }
func exertion(kind string) bool { return kind == "work" || kind == "balance" }

// restAnnounced reports whether an announced rest fills the gap.
func (t *Truth) restAnnounced(gap span) bool {
	for _, r := range t.Rests {
		if r.announced() != 0 && overlap(span{r.Start, r.End}, gap) > 0.5 {
			return true
		}
	}
	return false
}

// boundaries returns for each place between two neighbours whether they differ: element i lies between labels i and i+1.
func boundaries(labels []string) []bool {
	out := make([]bool, max(0, len(labels)-1))
	for i := range out {
		out[i] = labels[i] != labels[i+1]
	}
	return out
}

// window returns half the mean length of the reference's segments in units, at least 2: the window that Pk and WindowDiff are used with.
func window(ref []bool) int {
	segments := 1
	for _, b := range ref {
		if b {
			segments++
		}
	}
	return max(2, int(math.RoundToEven(float64(len(ref)+1)/float64(segments)/2)))
}

// Pk returns the share of windows of k neighbouring places in which one of two segmentations has a boundary and the other none; lower is better.
// Element i of ref and of found says whether a boundary lies between unit i and unit i+1, so n units give n-1 elements and
// the divisor is n-k windows; where a text counts the elements (m of them), the same divisor reads m-k+1.
// It is NaN for fewer than k elements.
//
// Beeferman D, Berger A, Lafferty J 1999, Statistical models for text segmentation, Machine Learning 34:177-210.
func Pk(ref, found []bool, k int) float64 {
	return windows(ref, found, k, func(r, f int) bool { return (r == 0) != (f == 0) })
}

// WindowDiff returns the share of windows in which two segmentations differ in the number of boundaries; lower is better.
// Elements, windows and divisor are those of [Pk].
//
// Pevzner L, Hearst MA 2002, A critique and improvement of an evaluation metric for text segmentation, Computational Linguistics 28(1):19-36.
func WindowDiff(ref, found []bool, k int) float64 {
	return windows(ref, found, k, func(r, f int) bool { return r != f })
}

// windows returns the share of windows of k elements whose numbers of boundaries differ in the given sense.
func windows(ref, found []bool, k int, differ func(ref, found int) bool) float64 {
	n := len(ref) - k + 1
	if n < 1 || len(found) != len(ref) {
		return math.NaN()
	}
	count := 0
	for i := range n {
		r, f := 0, 0
		for j := i; j < i+k; j++ {
			if ref[j] {
				r++
			}
			if found[j] {
				f++
			}
		}
		if differ(r, f) {
			count++
		}
	}
	return float64(count) / float64(n)
}
