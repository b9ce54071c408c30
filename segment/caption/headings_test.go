package caption

import (
	"errors"
	"testing"
)

// TestTableWithoutColumns: headings in quotes that only seem to name a start and a text.
func TestTableWithoutColumns(t *testing.T) {
	if track, err := Parse([]byte("\"start,x\",text\n1,2,one\n"), "x.csv", Options{}); !errors.Is(err, ErrNoTimes) {
		t.Errorf("got %v, %v; want no times", track, err)
	}
}
