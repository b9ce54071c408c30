package caption

import (
	"strings"
	"unicode/utf8"
)

// spokenLetters holds the letters of the numbers 0 to 19 as they are spoken in English.
const spokenLetters = "\x04\x03\x03\x05\x04\x04\x03\x05\x05\x04\x03\x06\x06\x08\x08\x07\x07\x09\x08\x08"

// spokenTens likewise holds those of the tens from 20 to 90.
const spokenTens = "\x06\x06\x05\x05\x05\x07\x06\x06"

// letters counts the letters of a folded word as it is spoken: digits count as their names.
func letters(fold string) int {
	if !isDigits(fold) {
		return utf8.RuneCountInString(fold)
	}
	v := number(fold)
	switch {
	case v < 0 || v >= 1000:
		return 5 * len(fold)
	case v >= 100:
		rest := 0
		if v%100 > 0 {
			rest = belowHundred(v%100) + 3
		}
		return belowHundred(v/100) + 7 + rest
	}
	return belowHundred(v)
}

func belowHundred(v int) int {
	if v < 20 {
		return int(spokenLetters[v])
	}
	n := int(spokenTens[v/10-2])
	if v%10 > 0 {
		n += int(spokenLetters[v%10])
	}
	return n
}

// isNumber reports whether a folded word is a whole number, in digits or as an English word.
func isNumber(fold string) bool {
	if fold == "" {
		return false
	}
	if c := fold[0]; c >= '0' && c <= '9' {
		return isDigits(fold)
	}
	return englishNumber(fold) >= 0
}

// englishNumber returns the value of an English number word from one to ninety-nine, or a hundred; -1 for another word.
func englishNumber(fold string) int {
	if len(fold) > len("seventy-seven") {
		return -1
	}
	if i := strings.IndexByte(fold, '-'); i > 0 {
		tens, ones := englishNumber(fold[:i]), englishNumber(fold[i+1:])
		if tens >= 20 && tens < 100 && tens%10 == 0 && ones > 0 && ones < 10 {
			return tens + ones
		}
		return -1
	}
	switch fold {
	case "one":
		return 1
	case "two":
		return 2
	case "three":
		return 3
	case "four":
		return 4
	case "five":
		return 5
	case "six":
		return 6
	case "seven":
		return 7
	case "eight":
		return 8
	case "nine":
		return 9
	case "ten":
		return 10
	case "eleven":
		return 11
	case "twelve":
		return 12
	case "thirteen":
		return 13
	case "fourteen":
		return 14
	case "fifteen":
		return 15
	case "sixteen":
		return 16
	case "seventeen":
		return 17
	case "eighteen":
		return 18
	case "nineteen":
		return 19
	case "twenty":
		return 20
	case "thirty":
		return 30
	case "forty":
		return 40
	case "fifty":
		return 50
	case "sixty":
		return 60
	case "seventy":
		return 70
	case "eighty":
		return 80
	case "ninety":
		return 90
	case "hundred":
		return 100
	}
	return -1
}
