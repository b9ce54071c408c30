package announce

import (
	"strings"

	"captally.example/captally/segment/numeral"
)

// An amount is a number as it was said, with its unit of time if it has one.
type amount struct {
	first, last int     // words, last exclusive
	value, high float64 // in seconds if timed; high is above value for a range
	timed       bool
	cost        float64 // natural logarithm of how unlikely this reading of misheard words is; 0 for what is written so
	single      bool    // one word that is a number: it may be part of a count
	more        bool    // "ten more seconds"
}

// longestRest bounds what can be a rest or a timed set, in seconds; what is longer is talk ("twenty minutes").
const longestRest = 360

// amountAt reads the amount that starts at word i.
func (t *text) amountAt(i int) (amount, bool) {
	if a, ok := t.fractionAt(i); ok {
		return a, true
	}
	if v, ok := suffixed(t.folds[i]); ok {
		return amount{first: i, last: i + 1, value: v, high: v, timed: true}, true
	}
	n, ok := t.number(i)
	if !ok || n.Ordinal {
		return amount{}, false
	}
	if n.Words == 2 && t.bare && t.countBegins(i+1) {
		n, _ = numeral.At(t.folds[i:i+1], 0)
	}
	a := amount{first: i, last: i + n.Words, value: float64(n.Value), high: float64(n.Value), single: n.Words == 1}
	t.rangeEnd(&a)
	t.unit(&a)
	return a, true
}

// countBegins reports whether words i and i+1 begin a count, as in "twenty | one two three" or "twenty | two four six".
func (t *text) countBegins(i int) bool {
	if i+1 >= len(t.folds) {
		return false
	}
	first, ok1 := numeral.Single(t.folds[i])
	second, ok2 := numeral.Single(t.folds[i+1])
	return ok1 && ok2 && (first == 1 && second == 2 || first == 2 && second == 4)
}

// suffixed reads a length in one word: "30s", "45secs", "2min", "thirty-second", "3-minute".
func suffixed(w string) (float64, bool) {
	number, unit := w, ""
	if h := strings.LastIndexByte(w, '-'); h > 0 {
		number, unit = w[:h], w[h+1:]
	} else if w != "" && w[0] >= '0' && w[0] <= '9' {
		number = strings.TrimRight(w, "abcdefghijklmnopqrstuvwxyz")
		unit = w[len(number):]
	}
	if unit == "" {
		return 0, false
	}
	v, ok := numeral.Single(number)
	if !ok {
		return 0, false
	}
	switch unit {
	case "s", "sec", "secs", "second", "seconds":
		return float64(v), true
	case "min", "mins", "minute", "minutes":
		return float64(60 * v), true
	}
	return 0, false
}

// word reports whether word i is w and belongs to the same sentence as the word before it.
func (t *text) word(i int, w string) bool {
	return i < len(t.folds) && t.folds[i] == w && (i == 0 || !t.ends[i-1])
}

func (t *text) isMinute(i int) bool {
	c := t.lexicon.minute
	if t.poor {
		c |= t.lexicon.minuteHeard
	}
	return i < len(t.words) && t.words[i].classes&c != 0
}

func (t *text) isSecond(i int) bool {
	c := t.lexicon.second
	if t.poor {
		c |= t.lexicon.secondHeard
	}
	return i < len(t.words) && t.words[i].classes&c != 0
}

// fractionAt reads the minutes that begin without a number: "half a minute", "three quarters of a minute", "a minute and a half",
// "a full minute", "minute and a quarter".
func (t *text) fractionAt(i int) (amount, bool) {
	timed := func(last int, v float64) (amount, bool) {
		return amount{first: i, last: last, value: v, high: v, timed: true}, true
	}
	switch t.folds[i] {
	case "half", "quarter":
		part := 30.0
		if t.folds[i] == "quarter" {
			part = 15
		}
		j := i + 1
		if t.word(j, "of") {
			j++
		}
		if t.word(j, "a") || t.word(j, "the") {
			j++
		}
		if t.isMinute(j) {
			return timed(j+1, part)
		}
	case "three":
		if (t.word(i+1, "quarters") || t.word(i+1, "quarter")) && t.word(i+2, "of") && (t.word(i+3, "a") || t.word(i+3, "an")) && t.isMinute(i+4) {
			return timed(i+5, 45)
		}
	case "three-quarters":
		if t.word(i+1, "of") && t.word(i+2, "a") && t.isMinute(i+3) {
			return timed(i+4, 45)
		}
	case "a", "full", "whole", "another", "minute", "minutes", "minute's", "solid":
		j := i
		for j < i+3 && (j == i && t.folds[i] == "a" || t.word(j, "a") || t.word(j, "full") || t.word(j, "whole") || t.word(j, "another") || t.word(j, "good") || t.word(j, "solid") || t.word(j, "proper")) {
			j++
		}
		if !t.isMinute(j) || i > 0 && !t.ends[i-1] && t.isOfMinutes(t.folds[i-1]) {
			return amount{}, false
		}
		return timed(t.minuteTail(j+1, 60))
	case "calf":
		if t.poor && (t.word(i+1, "a") || t.word(i+1, "the")) && t.isMinute(i+2) {
			return timed(i+3, 30)
		}
	case "have": // a recogniser's half: "have to manage"
		if t.poor && t.word(i+1, "to") && t.isMinute(i+2) {
			return timed(i+3, 30)
		}
	case "couple", "few":
		if t.word(i+1, "of") && t.isMinute(i+2) {
			return timed(i+3, 120)
		}
	}
	return amount{}, false
}

// isOfMinutes reports whether "minute" after this word is no minute announced: "the minute", "per minute". A recogniser's
// "the" may well have been "a".
func (t *text) isOfMinutes(before string) bool {
	switch before {
	case "a", "per", "this", "every", "last", "any":
		return true
	case "the":
		return !t.bare
	}
	return false
}

// minuteTail reads "and a half", "and a quarter", "thirty", "and thirty seconds" after a number of minutes.
func (t *text) minuteTail(i int, v float64) (int, float64) {
	if (t.word(i, "and") || t.bare && (t.word(i, "hand") || t.word(i, "in"))) && t.word(i+1, "a") {
		switch {
		case t.word(i+2, "half"):
			return i + 3, v + 30
		case t.word(i+2, "quarter"):
			return i + 3, v + 15
		}
	}
	j := i
	if t.word(j, "and") {
		j++
	}
	if j < len(t.folds) && (j == 0 || !t.ends[j-1]) {
		if n, ok := t.number(j); ok && !n.Ordinal && n.Value < 60 {
			if k := j + n.Words; t.isSecond(k) && !t.ends[k-1] {
				return k + 1, v + float64(n.Value)
			}
		}
	}
	return i, v
}

// rangeEnd reads the "to twelve" of "eight to twelve" and the "and twelve" of "between eight and twelve".
func (t *text) rangeEnd(a *amount) {
	i := a.last
	between := a.first > 0 && t.words[a.first-1].classes&t.lexicon.between != 0
	if !(t.word(i, "to") || t.word(i, "or") || between && t.word(i, "and")) || i+1 >= len(t.folds) {
		return
	}
	n, ok := t.number(i + 1)
	if !ok || n.Ordinal || float64(n.Value) <= a.value || float64(n.Value) > 3*a.value {
		return
	}
	a.high, a.last, a.single = float64(n.Value), i+1+n.Words, false
}

// unit reads the unit of time after a number: "seconds", "minutes", "and a half minutes".
func (t *text) unit(a *amount) {
	i := a.last
	if i >= len(t.words) || t.pauses[i-1] {
		return
	}
	half := 0.0
	if t.word(i, "and") && t.word(i+1, "a") && t.word(i+2, "half") && t.isMinute(i+3) {
		i, half = i+3, 30
	}
	for i < a.last+2 && (t.word(i, "more") || t.word(i, "full") || t.word(i, "whole") || t.word(i, "slow") || t.word(i, "extra")) {
		i++
	}
	if i >= len(t.words) || t.ends[i-1] {
		return
	}
	switch {
	case t.isSecond(i):
		a.more = t.folds[i-1] == "more"
		a.last, a.timed, a.single = i+1, true, false
	case t.isMinute(i):
		last, v := t.minuteTail(i+1, float64(60*a.value)+half)
		a.high = float64(60*a.high) + v - float64(60*a.value)
		a.value, a.last, a.timed, a.single = v, last, true, false
	}
}

// usual lengths in seconds: what a recogniser's nonsense before "seconds" is taken for.
var usual = [...]int{5, 10, 15, 20, 25, 30, 40, 45, 50, 60, 90}

// perJoined is what each further word costs that has to be joined to sound like one number.
const perJoined = 0.4

// wellKnown is the most that a mishearing may cost if the word before the unit is an everyday one ("count the seconds").
const wellKnown = 1.7

// misheardBefore reads the number that must stand before "seconds" at word i where none is written:
// "sir do seconds", "for two seconds" (forty).
func (t *text) misheardBefore(i int) (amount, bool) {
	best := amount{cost: 2.9}
	joined := ""
	for n := 1; n <= 3 && i-n >= 0; n++ {
		if n > 1 && t.ends[i-n] {
			break
		}
		if n == 1 {
			joined = t.folds[i-1]
		} else {
			joined = t.folds[i-n] + " " + joined
		}
		most := best.cost
		if numeral.Commonness(t.folds[i-1]) > tooCommon {
			most = min(most, wellKnown)
		}
		for _, g := range numeral.SoundsLike(joined) {
			cost := g.Cost + float64(float64(n-1)*perJoined)
			if cost >= most || !isUsual(g.Value) {
				continue
			}
			v := float64(g.Value)
			most, best = cost, amount{first: i - n, last: i + 1, value: v, high: v, timed: true, cost: cost}
		}
	}
	best.cost *= unitSpeaks
	return best, best.last > 0
}

// unitSpeaks is what remains of the cost of a misheard number that stands before a unit of time: something must stand there.
const unitSpeaks = 0.25

// otherReadings returns what else a recogniser's time may have been: "for two seconds" forty, "two minutes" a minute,
// "have two minutes" half a minute, "ninety" twenty. Two seconds are rarely announced.
func (t *text) otherReadings(a *amount) []amount {
	if !a.timed || a.high > a.value {
		return nil
	}
	other := func(v, cost float64) amount {
		b := *a
		b.value, b.high, b.cost = v, v, a.cost+cost
		return b
	}
	before := ""
	if a.first > 0 {
		before = t.folds[a.first-1]
	}
	switch a.value {
	case 2:
		if before == "for" || before == "four" {
			return []amount{other(40, 0.2)}
		}
		return []amount{other(40, 0.9), other(30, 0.9)}
	case 120:
		if before == "have" {
			return []amount{other(30, 0.3)}
		}
		return []amount{other(60, 0.2)}
	case 90:
		return []amount{other(20, 1.5)}
	case 50:
		return []amount{other(15, 0.8)}
	}
	return nil
}

func isUsual(v int) bool {
	for _, u := range usual {
		if u == v {
			return true
		}
	}
	return false
}
