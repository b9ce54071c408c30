package naming

import "testing"

// TestDescribed checks that a movement which is only described gets its usual name, and that a name which is said goes before it.
func TestDescribed(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Stand behind the chair. Heels up and down, ten times. | One, two, three. ||", "heel raise"},
		{"Next, take the leg out to the side. Ten of these. | One, two, three. ||", "side leg raise"},
		{"Push the back of your knee down into the bed. And squeeze. | One, two, three. ||", "quad squeeze"},
		{"Next are calf raises, so it's up on your toes. Ten. | One, two, three. ||", "calf raises"},
	} {
		track, sets := say(c.text)
		if got := Names(track, sets)[0].Text; got != c.want {
			t.Errorf("%s named %q, want %q", c.text, got, c.want)
		}
	}
}

// TestDescriptions checks that each description is of one movement only.
func TestDescriptions(t *testing.T) {
	seen := map[string]string{}
	err := eachLine("data/described.txt", func(name, line string) error {
		if other, ok := seen[line]; ok {
			t.Errorf("%q describes %s and %s", line, other, name)
		}
		seen[line] = name
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
