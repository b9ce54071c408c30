package caption

import (
	"slices"
	"strconv"
	"strings"
)

// jsonTime reads the start or the end of a segment or a word.
func jsonTime(n *jsonNode, start bool) (Time, bool) {
	names, pair := jsonEnd, 1
	if start {
		names, pair = jsonStart, 0
	}
	for _, name := range names {
		if m := n.get(name); m != nil {
			if t, ok := jsonValue(m, 1); ok {
				return t, true
			}
		}
		for _, ms := range [...]string{name + "_ms", name + "Ms", name + "Millis"} {
			if m := n.get(ms); m != nil {
				return jsonValue(m, 1000)
			}
		}
	}
	if m := n.get("offsets"); m != nil { // in ms
		return jsonValue(m.get([]string{"from", "to"}[pair]), 1000)
	}
	if m := n.get("timestamps"); m != nil && m.kind == '{' { // clock text
		return jsonValue(m.get([]string{"from", "to"}[pair]), 1)
	}
	if list := n.list("timestamp"); len(list) == 2 {
		return jsonValue(list[pair], 1)
	}
	if m := n.get("tStartMs"); m != nil {
		t, ok := jsonValue(m, 1000)
		if !start {
			d, okLength := jsonValue(n.get("dDurationMs"), 1000)
			return t + d, ok && okLength
		}
		return t, ok
	}
	if !start {
		if d, ok := jsonValue(n.get("duration", "dur"), 1); ok {
			t, ok := jsonTime(n, true)
			return t + d, ok
		}
	}
	return 0, false
}

// jsonValue reads a number, a number in quotes, "1.2s", or a clock time; unit is how many of it make a second.
func jsonValue(n *jsonNode, unit float64) (Time, bool) {
	if n != nil && n.kind == '{' {
		return jsonParts(n)
	}
	if n == nil || n.kind != 'n' && n.kind != 's' {
		return 0, false
	}
	if strings.IndexByte(n.text, ':') > 0 {
		t, k, fault := readClock(strings.TrimSpace(n.text))
		return t, k > 0 && fault&clockTooLate == 0
	}
	v, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(n.text), "s"), 64)
	if err != nil {
		return 0, false
	}
	return seconds(v / unit)
}

// jsonParts reads a time that is written in two members, as {"seconds": 62, "nanos": 500000000}; a member that is 0 can be left out.
func jsonParts(n *jsonNode) (Time, bool) {
	var sum Time
	for _, m := range n.items {
		unit := 1.0
		switch m.key {
		case "nanos", "nanoseconds":
			unit = 1e9
		case "millis", "milliseconds":
			unit = 1000
		case "seconds":
		default:
			return 0, false
		}
		t, ok := jsonValue(m, unit)
		if !ok || m.kind == '{' {
			return 0, false
		}
		sum += t
	}
	return sum, true
}

// fromMillis turns times into seconds that seem to be milliseconds although their names do not say so: all are whole numbers, and the
// last would be beyond ten hours, or the words too slow for speech. It returns what to say of it, "" where it did nothing.
func fromMillis(root *jsonNode) string {
	var times []*jsonNode
	whole := true
	latest := 0
	var length Time
	words := 0
	var walk func(n *jsonNode)
	walk = func(n *jsonNode) {
		start, ok := jsonTime(n, true)
		if end, okEnd := jsonTime(n, false); ok && okEnd {
			length += end - start
			words += wordCount(segmentText(n))
		}
		for _, m := range n.items {
			switch {
			case m.key == "offsets": // named so, they are milliseconds anyway
			case m.kind != 'n':
				walk(m)
			case slices.Contains(jsonStart, m.key) || slices.Contains(jsonEnd, m.key) || m.key == "duration" || m.key == "dur":
				times = append(times, m)
				whole = whole && isDigits(m.text)
				if whole {
					latest = max(latest, number(m.text))
				}
			}
		}
	}
	walk(root)
	if !whole || latest <= tenHours && !tooSlow(length, words) {
		return ""
	}
	for _, n := range times {
		n.text = strconv.FormatFloat(float64(number(n.text))/1000, 'f', 3, 64)
	}
	if latest <= tenHours {
		return slowMillis
	}
	return wholeMillis
}

// Limits beyond which a recogniser's own measures say that it was stuck or heard nothing: the defaults of a widely used open recogniser.
const (
	mostCompression = 2.4 // by how much its text could be compressed
	mostSilence     = 0.6 // its probability that there was no speech
)

// segmentDoubt returns the doubt of all words of a segment, from the recogniser's measures of the segment.
func (r *reading) segmentDoubt(n *jsonNode) float64 {
	if v, ok := jsonNumber(n.get("compression_ratio")); ok && v > mostCompression {
		r.warn.add(n.line, "the recogniser says that it repeated itself (compression_ratio)")
		return loopDoubt
	}
	if v, ok := jsonNumber(n.get("no_speech_prob")); ok && v > mostSilence {
		r.warn.add(n.line, "the recogniser doubts that there was speech (no_speech_prob)")
		return min(v, 1)
	}
	return 0
}

func jsonNumber(n *jsonNode) (float64, bool) {
	if n == nil || n.kind != 'n' {
		return 0, false
	}
	v, err := strconv.ParseFloat(n.text, 64)
	return v, err == nil
}

// jsonDoubtOf returns the recogniser's doubt of a word, 0 where it gives none.
func jsonDoubtOf(n *jsonNode) float64 {
	m := n.get(jsonDoubt...)
	if m == nil {
		return 0
	}
	v, err := strconv.ParseFloat(m.text, 64)
	if err != nil || !(v >= 0) {
		return 0
	}
	if v > 1 && v <= 100 {
		v /= 100
	}
	return 1 - min(v, 1)
}
