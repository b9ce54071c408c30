package segment

// timedWeights are what each feature of a timed set speaks for it, in nats.
type timedWeights struct {
	start startFeatures
	end   endFeatures
	pair  pairFeatures
}

func (w *timedWeights) ofStart(f *startFeatures) float64 {
	s := 0.0
	for i, v := range f {
		s += float64(v * w.start[i])
	}
	return s
}

func (w *timedWeights) ofEnd(f *endFeatures) float64 {
	s := 0.0
	for i, v := range f {
		s += float64(v * w.end[i])
	}
	return s
}

// ofPair leaves out the seconds counted aloud, which are in nats already.
func (w *timedWeights) ofPair(f *pairFeatures) float64 {
	s := 0.0
	for i, v := range f[:pairSeconds] {
		s += float64(v * w.pair[i])
	}
	return s
}
