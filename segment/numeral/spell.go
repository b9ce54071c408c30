package numeral

import "strconv"

// Spell writes n in words: "twenty-one", "one hundred twenty-three", "minus four".
// These are CLDR's rules "spellout-cardinal" for English; from a thousand million on it writes figures.
func Spell(n int) string { return spell(n, false) }

// SpellVerbose writes n in words with "and": "one hundred and twenty-three", "one thousand and five".
// These are CLDR's rules "spellout-cardinal-verbose" for English; from a thousand million on it writes figures.
func SpellVerbose(n int) string { return spell(n, true) }

func spell(n int, verbose bool) string {
	switch {
	case n <= -1e9 || n >= 1e9:
		return strconv.Itoa(n)
	case n < 0:
		return "minus " + spell(-n, verbose)
	case n < 20:
		return cardinals[n]
	case n < 100:
		if n%10 == 0 {
			return tensNames[n/10]
		}
		return tensNames[n/10] + "-" + cardinals[n%10]
	case n < 1000:
		return spell(n/100, verbose) + " hundred" + rest(n%100, verbose, false)
	case n < 1000000:
		return spell(n/1000, verbose) + " thousand" + rest(n%1000, verbose, n >= 100000)
	}
	return spell(n/1000000, verbose) + " million" + rest(n%1000000, verbose, true)
}

// rest writes what follows a multiplier, with what joins it: commas are for large numbers only.
func rest(n int, verbose, commas bool) string {
	switch {
	case n == 0:
		return ""
	case !verbose:
		return " " + spell(n, false)
	case n < 100:
		return " and " + spell(n, true)
	case !commas:
		return " " + spell(n, true)
	case n >= 1000:
		return ", " + spell(n/1000, true) + " thousand" + rest(n%1000, true, true)
	}
	return ", " + spell(n, true)
}
