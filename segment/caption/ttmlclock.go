package caption

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"time"
)

// A ttmlClock holds what the time expressions of a file are counted in (TTML2 12.3).
type ttmlClock struct {
	frames float64 // a second, with the multiplier
	ticks  float64 // a second
}

func newTTMLClock() ttmlClock { return ttmlClock{frames: 30, ticks: 1} }

// read takes ttp:frameRate, frameRateMultiplier, subFrameRate and tickRate from the root element.
func (c *ttmlClock) read(e xml.StartElement) {
	rate, given := attr(e, "frameRate")
	if v, err := strconv.ParseFloat(strings.TrimSpace(rate), 64); err == nil && v > 0 && v < 1e6 {
		c.frames = v
	}
	if v, ok := attr(e, "frameRateMultiplier"); ok {
		part := strings.FieldsFunc(v, func(r rune) bool { return r == ' ' || r == ':' })
		if len(part) == 2 {
			a, _ := strconv.ParseFloat(part[0], 64)
			b, _ := strconv.ParseFloat(part[1], 64)
			if a > 0 && b > 0 {
				c.frames *= a / b
			}
		}
	}
	c.ticks = 1
	if given {
		c.ticks = c.frames
	}
	if v, ok := attr(e, "tickRate"); ok {
		if x, err := strconv.ParseFloat(strings.TrimSpace(v), 64); err == nil && x > 0 && x < 1e12 {
			c.ticks = x
		}
	}
}

// time reads a time expression (TTML2 12.3.1), or a plain number of seconds, or of ms.
func (c *ttmlClock) time(s string, millis bool) (Time, bool) {
	s, _ = plainSigns(strings.TrimSpace(s))
	if strings.IndexByte(s, ':') >= 0 {
		return c.clockTime(s)
	}
	i := len(s)
	for i > 0 && (s[i-1] < '0' || s[i-1] > '9') && s[i-1] != '.' {
		i--
	}
	v, err := strconv.ParseFloat(strings.Replace(s[:i], ",", ".", 1), 64)
	if err != nil || math.IsNaN(v) || v < 0 {
		return 0, false
	}
	switch s[i:] {
	case "h":
		v *= 3600
	case "m":
		v *= 60
	case "s":
	case "ms":
		v /= 1000
	case "f":
		v /= c.frames
	case "t":
		v /= c.ticks
	case "":
		if millis {
			v /= 1000
		}
	default:
		return 0, false
	}
	return seconds(v)
}

// clockTime reads hh:mm:ss, hh:mm:ss.fraction and hh:mm:ss:frames.
func (c *ttmlClock) clockTime(s string) (Time, bool) {
	part := strings.Split(s, ":")
	if len(part) < 2 || len(part) > 4 {
		return 0, false
	}
	frames := 0.0
	if len(part) == 4 {
		f, err := strconv.ParseFloat(part[3], 64)
		if err != nil || f < 0 {
			return 0, false
		}
		frames = f / c.frames
		part = part[:3]
	}
	t, n, fault := readClock(strings.Join(part, ":"))
	if n == 0 || fault&(clockNegative|clockTooLate) != 0 {
		return 0, false
	}
	f, ok := seconds(frames)
	return t + f, ok
}

// seconds turns s into a Time, to the nearest 0.1 ms; it fails beyond 24 hours.
func seconds(s float64) (Time, bool) {
	if !(s >= 0 && s <= maxClock.Seconds()) {
		return 0, false
	}
	return Time(math.Round(s*1e4)) * Time(100*time.Microsecond), true
}
