package segment

// timedWeights are what each feature of a timed set speaks for it, in nats.
type timedWeights struct {
	start startFeatures
	end   endFeatures
	pair  pairFeatures
}

// weightsOf returns the fitted weights of one column.
func weightsOf(column int) *timedWeights {
	w := &timedWeights{}
	for i := range startFitted {
		w.start[i] = startFitted[i][column]
	}
	for i := range endFitted {
		w.end[i] = endFitted[i][column]
	}
	for i := range pairFitted {
		w.pair[i] = pairFitted[i][column]
	}
	return w
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

// mostFit is more than pairFit ever is.
const mostFit = 3.5

// restOfPair is the most that the length and the truth of remarks on the time can add, given whether there are any remarks and an announced length.
func (w *timedWeights) restOfPair(f *pairFeatures) float64 {
	rest := max(0, -4*w.pair[pairTypical])
	if f[pairCues] > 0 {
		rest += float64(2*max(0, w.pair[pairCueTrue])) + max(0, -4*w.pair[pairCueFit])
	}
	if f[pairUnsaid] == 0 {
		rest += float64(mostFit*max(0, w.pair[pairFit])) + max(0, -1.5*w.pair[pairFar])
	}
	return rest
}
