package caption

import (
	"strconv"
	"strings"
	"time"
)

// spokenClock reads "1 minute, 5 seconds", -1 for something else.
func spokenClock(s string) Time {
	var total Time
	field := strings.Fields(strings.ReplaceAll(s, ",", " "))
	if len(field) == 0 || len(field) > 6 || len(field)%2 != 0 {
		return -1
	}
	for i := 0; i < len(field); i += 2 {
		if !isDigits(field[i]) || len(field[i]) > 4 {
			return -1
		}
		n := Time(number(field[i]))
		switch strings.TrimSuffix(field[i+1], "s") {
		case "hour":
			total += n * Time(time.Hour)
		case "minute":
			total += n * Time(time.Minute)
		case "second":
			total += n * Time(time.Second)
		default:
			return -1
		}
	}
	return total
}

// isCutLabel reports whether s is the beginning of a time as it is spoken.
func isCutLabel(s string, at Time) bool {
	n := int(at / Time(time.Second))
	var parts []string
	for _, u := range [...]struct {
		n    int
		name string
	}{{n / 3600, "hour"}, {n / 60 % 60, "minute"}, {n % 60, "second"}} {
		switch {
		case u.n == 1:
			parts = append(parts, "1 "+u.name)
		case u.n > 1:
			parts = append(parts, strconv.Itoa(u.n)+" "+u.name+"s")
		}
	}
	return strings.Contains(s, " ") && strings.HasPrefix(strings.Join(parts, ", "), s)
}
