package settle

import "errors"

// valid says what a decision lacks.
func (x *Decision) valid() error {
	if x.Kind == "" {
		return errors.New("a decision needs its kind")
	}
	return nil
}

// Describe tells a decision in a line for a person, such as "0:37 count-repeated: it was said".
func (x Decision) Describe() string { return string(x.Kind) }
