package segment

// timedWeights are what each feature of a timed set speaks for it, in nats.
type timedWeights struct {
	start startFeatures
	end   endFeatures
	pair  pairFeatures

	rest, unmet [allUnknowns]float64 // see bound
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
	w.bound()
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

// A unknowns says what may still speak for a pair that has not been weighed to the end.
type unknowns uint8

const (
	withLength  unknowns = 1 << iota // a length was announced, which may fit
	withRemarks                      // there are remarks on the time, which may be true
	allUnknowns
)

// bound works out the most that a pair can gain yet: rest by its length and the remarks, unmet by that and by what its words say as a whole.
func (w *timedWeights) bound() {
	p := &w.pair
	for u := range allUnknowns {
		rest, unmet := max(0, -4*p[pairTypical])+max(0, p[pairReps], -3*p[pairReps]), max(-0.4*p[pairTalk], 0.6*p[pairTalk])+float64(6*max(0, p[pairCross]))
		if u&withLength != 0 {
			rest += float64(mostFit*max(0, p[pairFit])) + max(0, -1.5*p[pairFar])
		} else {
			unmet += p[pairUnsaid]
		}
		if u&withRemarks != 0 {
			rest += float64(2*max(0, p[pairCueTrue])) + max(0, -4*p[pairCueFit])
			unmet += float64(3 * max(0, p[pairCues]))
		}
		w.rest[u], w.unmet[u] = rest, rest+unmet
	}
}

// most is the most that a pair can come to for what was met between its beginning and its end, but for unmet and for the flow of talk.
func (w *timedWeights) most(m *met) float64 {
	p := &w.pair
	s := m.up + m.toOne + float64(0.1*m.few*max(0, p[pairFew])) + float64(max(0, p[pairCountdown])*m.down)
	return s + float64(p[pairGo]*m.goes) + float64(p[pairStop]*m.stop) + float64(p[pairDose]*m.dose)
}

// ofFlow is what the longest flow of talk adds, in seconds.
func (w *timedWeights) ofFlow(flow float64) float64 {
	if flow <= 6 {
		return 0
	}
	return float64(w.pair[pairFlow] * min(3, 0.1*(flow-6)))
}
