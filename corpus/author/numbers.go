package author

import (
	"strconv"
	"strings"
)

var small = strings.Fields(`zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen
	fifteen sixteen seventeen eighteen nineteen`)

var tens = strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")

// spell writes a number from 0 to 9999 in words.
func spell(n int) string {
	switch {
	case n < 20:
		return small[n]
	case n < 100 && n%10 == 0:
		return tens[n/10]
	case n < 100:
		return tens[n/10] + "-" + small[n%10]
	case n < 1000:
		return more(small[n/100]+" hundred", n%100)
	}
	return more(small[n/1000%10]+" thousand", n%1000)
}

func more(head string, n int) string {
	if n == 0 {
		return head
	}
	if n < 100 {
		head += " and"
	}
	return head + " " + spell(n)
}

// digits gives the digits of a number word from two to ninety-nine.
func digits(word string) (string, bool) {
	for n := 2; n < 100; n++ {
		if spell(n) == word {
			return strconv.Itoa(n), true
		}
	}
	return "", false
}
