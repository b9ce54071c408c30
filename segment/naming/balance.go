package naming

import (
	"strings"
	"sync"

	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/phrases"
)

// Shares of the talk around a name in the probability.
const (
	balancePrior = 0.03 // of a set whose name and talk say nothing of balance
	aroundShare  = 0.5  // of what the talk says, where the name says nothing
)

// BalanceHint returns the probability in [0,1] that an exercise of this name is a balance exercise, given the words that were
// said before it. Both may be empty. It is a hint from phrases, not a count of cases.
func BalanceHint(name string, before []caption.Word) float64 {
	book := balance()
	named := strings.Fields(strings.ToLower(name))
	no := 1 - balancePrior
	for i := range named {
		for _, m := range find(book, i, len(named), func(i int) string { return named[i] }) {
			if m.Kind == "name" {
				no = min(no, 1-m.Weight)
			}
		}
	}
	talk, against := 0.0, 0.0
	for i := range before {
		for _, m := range find(book, i, len(before), func(i int) string { return before[i].Fold }) {
			switch m.Kind {
			case "around":
				talk = max(talk, m.Weight)
			case "strength":
				against = max(against, m.Weight)
			}
		}
	}
	return 1 - float64(no*(1-float64(aroundShare*talk*(1-against))))
}

func find(book *phrases.Book, i, n int, word func(int) string) []phrases.Match {
	return book.Find(nil, i, n, word, func(int) bool { return false })
}

var balance = sync.OnceValue(func() *phrases.Book {
	book, err := loadBalance()
	if err != nil {
		panic(err) // the file is part of the program; a test reads it
	}
	return book
})

func loadBalance() (*phrases.Book, error) {
	f, err := files.Open("data/balance.txt")
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return phrases.Read(f, "data/balance.txt")
}
