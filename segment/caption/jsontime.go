package caption

import (
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
