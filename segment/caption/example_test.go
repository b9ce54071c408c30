package caption_test

import (
	"fmt"

	"captally.example/captally/segment/caption"
)

func ExampleParse() {
	const file = "[0:10] And one, two,\n[0:14] and rest.\n"
	t, err := caption.Parse([]byte(file), "session.txt", caption.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(t.Format, t.Timing)
	for _, w := range t.Words {
		fmt.Printf("%s %.1f s (%.1f to %.1f), line %d\n", w.Fold, w.Time.At.Seconds(), w.Time.Low.Seconds(), w.Time.High.Seconds(), w.Line)
	}
	// Output:
	// transcript cue
	// and 10.5 s (10.0 to 11.5), line 1
	// one 11.3 s (10.3 to 13.1), line 1
	// two 12.9 s (10.8 to 14.7), line 1
	// and 14.5 s (14.0 to 15.5), line 2
	// rest 15.6 s (14.3 to 18.3), line 2
}
