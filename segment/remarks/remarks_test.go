package remarks

import (
	"slices"
	"strings"
	"testing"
	"time"

	"captally.example/captally/segment/caption"
)

// say makes a track of spoken words. Where plain is true it has no punctuation, and pauses instead.
func say(text string, plain bool) *caption.Track {
	track := &caption.Track{Timing: caption.TimingCue}
	if plain {
		track.Timing = caption.TimingWord
	}
	at := time.Duration(0)
	for w := range strings.FieldsSeq(text) {
		core := strings.TrimRight(w, ".,?!")
		after := w[len(core):]
		word := caption.Word{Text: core, Fold: strings.ToLower(core), After: after, Time: caption.Spread{At: caption.Time(at)}}
		at += 200*time.Millisecond + time.Duration(len(core))*40*time.Millisecond
		if plain {
			word.Text, word.After = word.Fold, ""
			if strings.ContainsAny(after, ".?!") {
				at += time.Second
			}
		}
		track.Words = append(track.Words, word)
	}
	return track
}

func texts(rs []Remark) []string {
	var out []string
	for _, r := range rs {
		out = append(out, r.Text)
	}
	return out
}

const welcome = `Good morning, welcome to the Tuesday shoulder class. This is for anyone who has had a frozen shoulder for half a year,
and can lift a cup to the mouth. You'll need a broom, two small bottles of water, and a firm chair with no arms. If you've no broom, an umbrella.
If you feel dizzy, stop and sit down. I had a lady here who brought a carpet, and she had chest pain from laughing.
On a scale of nought to ten, stay under a four. Shall we. `

const lesson = `Broom lifts, ten of them. If that's too easy, hold a bottle as well. One. Two. Three. Four. Five. Six. Seven. Eight. Nine. Ten.
Elbows in. Lovely work. Other hand on top. One. Two. Three. Four. Five. Six. Seven. Eight. Nine. Ten. Rest. Shake the arms. And again. One. Two. Three. Four. Five.
Well done everybody, that is the lot. Do it three times a week with a day between. Bye now.`

func TestFind(t *testing.T) {
	for _, plain := range []bool{false, true} {
		track := say(welcome+lesson, plain)
		intro := track.Words[len(strings.Fields(welcome))].Time.At
		f := Find(track, intro)
		level := "This is for anyone who has had a frozen shoulder for half a year, and can lift a cup to the mouth"
		dose := "Do it three times a week with a day between"
		scale := "On a scale of nought to ten, stay under a four"
		caution := "If you feel dizzy, stop and sit down"
		option := "If that's too easy, hold a bottle as well"
		title := "The Tuesday shoulder class"
		if plain {
			for _, s := range []*string{&level, &scale, &caution, &option, &title, &dose} {
				*s = (*s)[:1] + strings.ToLower(strings.ReplaceAll((*s)[1:], ",", ""))
			}
		}
		if f.Title == nil || f.Title.Text != title {
			t.Errorf("plain %v: title %+v, want %q", plain, f.Title, title)
		}
		if f.Level == nil || f.Level.Text != level {
			t.Errorf("plain %v: level %+v, want %q", plain, f.Level, level)
		}
		things := strings.ToLower(strings.Join(texts(f.Equipment), "; "))
		for _, thing := range []string{"broom", "two small bottles of water", "firm chair with no arms", "umbrella"} {
			if !strings.Contains(things, thing) {
				t.Errorf("plain %v: no %q in equipment %q", plain, thing, things)
			}
		}
		if strings.Contains(things, "carpet") {
			t.Errorf("plain %v: a thing of an anecdote in equipment %q", plain, things)
		}
		for _, c := range []struct {
			kind string
			got  []Remark
			want string
		}{{"cautions", f.Cautions, caution}, {"effort", f.Effort, scale}, {"options", f.Options, option}, {"afterwards", f.Afterwards, dose}} {
			if got := texts(c.got); !slices.Equal(got, []string{c.want}) {
				t.Errorf("plain %v: %s %q, want %q alone", plain, c.kind, got, c.want)
			}
		}
	}
}

func TestTitles(t *testing.T) {
	for _, c := range []struct {
		text  string
		plain bool
		want  string
	}{
		{"Welcome back to Steady on Your Feet. This is for anyone who trips.", false, "Steady on Your Feet"},
		{"Welcome to On Your Feet, everybody.", false, "On Your Feet"},
		{"Welcome to this session. We stand.", false, ""},
		{"Welcome to the video, everybody.", false, ""},
		{"Welcome to this. We stand.", false, ""},
		{"So this is your video, for you, yet.", false, ""},
		{"Welcome to the Monday circuit, and for them at home, hello.", false, "The Monday circuit"},
		{"Welcome to the Monday circuit and for them at home hello", true, "The monday circuit"},
		{"Welcome to stage three of the ankle series this is for people who jog", true, "Stage three of the ankle series"},
		{"Welcome to strength with a light band and we sit", true, "Strength with a light band"},
		{"Welcome to the sit and stand class, please.", false, "The sit and stand class"},
		{"The next session is for you, if you are well.", false, ""},
	} {
		track := say(c.text+" "+strings.Repeat("Up and down. ", 40), c.plain)
		got := ""
		if title := Find(track, track.Words[12].Time.At).Title; title != nil {
			got = title.Text
		}
		if got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

// TestGreetingIsNoLevel: whom a session is for begins after the welcome and the name of the speaker.
func TestGreetingIsNoLevel(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Welcome to the ward class, I'm Nurse Pinecone, and this is what we do in the first fortnight. Sit down.", "This is what we do in the first fortnight"},
		{"Welcome to the Monday circuit, and for those at home, this is phase three, so you've had your bypass. Sit down.", "For those at home, this is phase three, so you've had your bypass"},
		{"This is only for you if somebody looked at your ears. Sit down.", "This is only for you if somebody looked at your ears"},
		{"This is anyone over sixty-five, with a stick or without. Sit down.", "This is anyone over sixty-five, with a stick or without"},
		{"Good morning to you and to you, this is for people with a stiff hip. Sit down.", "This is for people with a stiff hip"},
		{"I'm so glad you've had your operation. Sit down.", "I'm so glad you've had your operation"},
	} {
		track := say(c.text, false)
		if l := Find(track, track.Words[len(track.Words)-1].Time.At+1).Level; l == nil || l.Text != c.want {
			t.Errorf("%s\n got %v\nwant %s", c.text, l, c.want)
		}
	}
}

// TestGoodbyeIsNoAdvice: what is said before it in one breath is kept.
func TestGoodbyeIsNoAdvice(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Do it three times a week, and bye for now.", "Do it three times a week"},
		{"Three times a week, so I'll see you next Monday.", "Three times a week"},
		{"See you next time, three times a week.", ""},
	} {
		track := say(strings.Repeat("Up and down. ", 40)+c.text, false)
		if got := strings.Join(texts(Find(track, track.Words[12].Time.At).Afterwards), "; "); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

func TestLists(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"You will need a mat or a rug, later on a kitchen worktop, and that's it.", "Mat or a rug; Kitchen worktop"},
		{"All you need is a wall and a door handle that holds.", "Wall; Door handle that holds"},
		{"Today's kit. A light band. A chair behind you in case you want to sit. Right.", "Light band; Chair behind you"},
		{"A firm chair, no wheels. A heavy table in front. Now we begin.", "Firm chair; Heavy table in front"},
		{"You don't need a thing. You want to sit tall.", ""},
		{"You need one kettlebell, a sturdy box, and a clock you can see.", "One kettlebell; Sturdy box; Clock"},
		{"You'll need the edge of a sofa you aren't fond of, and a chair in front of you.", "Edge of a sofa; Chair in front of you"},
		{"Have ready a sock, and a table to rest your arm on.", "Sock; Table to rest your arm on"},
		{"You need a mat, two pillows, and for the end a chair with a firm seat.", "Mat; Two pillows; Chair with a firm seat"},
		{"You want something to hold, a barre, the back of a sofa, and a band.", "Back of a sofa; Band"},
		{"You need the bottom step, and your running takkies on.", "Bottom step; Running takkies"},
		{"You don't need a thing. The bed, a blanket rolled up, and a plastic bag under your heel.", "Bed; Blanket rolled up; Plastic bag under your heel"},
		{"You need a mat, and flat shoes on you.", "Mat; Flat shoes"},
		{"You need a chair with arms on it, the brakes on if it has wheels, and a table.", "Chair with arms on it; Table"},
		{"Get a business card, write a letter on it, stick it on the wall. Get a chair.", "Business card, write a letter on it; Chair"},
		{"You need a band, and if it hurts, phone the unit.", "Band"},
		{"This is not what you need, your video yet.", ""},
		{"Grab your trainers, and find a wall.", "Trainers; Wall"},
	} {
		track := say(c.text, false)
		if got := strings.Join(texts(Find(track, track.Words[len(track.Words)-1].Time.At+1).Equipment), "; "); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

// TestWordsOfTheCaptions checks that remarks add no word and point at the words that they quote.
func TestWordsOfTheCaptions(t *testing.T) {
	track := say(welcome+lesson, false)
	f := Find(track, track.Words[len(strings.Fields(welcome))].Time.At)
	all := slices.Concat(f.Equipment, f.Cautions, f.Effort, f.Options, f.Afterwards, []Remark{*f.Title, *f.Level})
	for _, r := range all {
		var words []string
		for _, w := range track.Words[r.First:r.Last] {
			words = append(words, w.Fold)
		}
		got := strings.FieldsFunc(strings.ToLower(r.Text), func(c rune) bool { return strings.ContainsRune(" ,.?!", c) })
		if !slices.Equal(got, words) {
			t.Errorf("%q stands for words %q", r.Text, words)
		}
		if r.At != track.Words[r.First].Time.At {
			t.Errorf("%q at %v, its first word at %v", r.Text, r.At, track.Words[r.First].Time.At)
		}
	}
	if len(all) < 8 {
		t.Errorf("only %d remarks", len(all))
	}
}

func TestNothingSaid(t *testing.T) {
	if f := Find(&caption.Track{}, 0); f.Title != nil || f.Level != nil || f.Equipment != nil || f.Cautions != nil {
		t.Errorf("an empty track has remarks: %+v", f)
	}
	f := Find(say("One. Two. Three. Four.", false), 0)
	if f.Title != nil || f.Level != nil || len(f.Equipment)+len(f.Cautions)+len(f.Effort)+len(f.Options)+len(f.Afterwards) > 0 {
		t.Errorf("a bare count has remarks: %+v", f)
	}
}

// TestOddEnds: a list, a title or a warning that breaks off anywhere is read as far as it goes.
func TestOddEnds(t *testing.T) {
	text := strings.Fields("Welcome to the hop class. You need a mat, you need. And for the end one, a band on it. Get flat shoes on you. If you feel dizzy, stop. This is for you if, welcome to and. One, two, three")
	for _, plain := range []bool{false, true} {
		for first := range text {
			for last := first + 1; last <= len(text); last++ {
				track := say(strings.Join(text[first:last], " "), plain)
				Find(track, track.Words[len(track.Words)-1].Time.At+1)
			}
		}
	}
}

func TestFarewells(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Twice a week, a day between. See you next week.", "Twice a week, a day between"},
		{"Twice a week, a day between. Until the next time.", "Twice a week, a day between"},
		{"If it's sore tomorrow, do less. Catch ya next time.", "If it's sore tomorrow, do less"},
	} {
		if got := strings.Join(texts(Find(say(strings.Repeat("Up and down. ", 40)+c.text, false), 0).Afterwards), "; "); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

func TestQuestionIsNoAnswer(t *testing.T) {
	track := say("Who is this for? You are past six weeks and walking well. Sit down.", false)
	if l := Find(track, track.Words[len(track.Words)-1].Time.At+1).Level; l == nil || !strings.HasPrefix(l.Text, "You are past") {
		t.Errorf("level %v", l)
	}
}

// TestCautions: warnings come in many words; what only sounds like one is none.
func TestCautions(t *testing.T) {
	for _, c := range []struct {
		text string
		want bool
	}{
		{"If your back is barking, sit this one out and talk to your PT.", true},
		{"If your calf's hot and sore, you ring the ward, day or night.", true},
		{"If the words do not come out, you call the ambulance at once.", true},
		{"If your hip gets sharp, stop, or drop the weight.", true},
		{"If you had a neck thing, ask first.", true},
		{"If your fingers are numb at night, go get it seen.", true},
		{"Stand up from the chair and talk to your neighbour.", false},
		{"I shall ask you to count for me first.", false},
		{"The bell rings at ten and we stop for tea.", false},
	} {
		track := say("Good morning all. "+c.text+" Now we begin.", false)
		got := texts(Find(track, track.Words[len(track.Words)-1].Time.At).Cautions)
		if want := []string{strings.TrimSuffix(c.text, ".")}; c.want && !slices.Equal(got, want) || !c.want && got != nil {
			t.Errorf("%s: %q", c.text, got)
		}
	}
}

// TestLongCaution: a warning is not cut before it says what to do.
func TestLongCaution(t *testing.T) {
	long := "If your leg is hot" + strings.Repeat(", or sore here and there", 10) + ", you ring the ward"
	track := say("Good morning all. "+long+". Now we begin.", false)
	if got := texts(Find(track, track.Words[len(track.Words)-1].Time.At).Cautions); !slices.Equal(got, []string{long}) {
		t.Errorf("got %q", got)
	}
}

// TestOptions: a way that is easier or harder is a whole one, without the count that follows it; water, a rest and half a condition are none.
func TestOptions(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"If you can't, use your hands.", "If you can't, use your hands"},
		{"If you can't face getting up again.", ""},
		{"Water if you need it. Sit down for a minute.", ""},
		{"Make it smaller one two three four five.", "Make it smaller"},
		{"One, two, three, four, use your hands.", ""},
		{"Take the heavier weight for the second set, twelve kilos or fourteen.", "Take the heavier weight for the second set, twelve kilos or fourteen"},
	} {
		if got := strings.Join(texts(Find(say("Up and down. "+c.text+" And down.", false), 0).Options), "; "); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

// TestEffort: a number makes a scale of effort, but not an age, nor what was said to tell whom the session is for.
func TestEffort(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Pain is allowed up to four.", "Pain is allowed up to four"},
		{"Quick reminder, pain up to a 4 is okay.", "Quick reminder, pain up to a 4 is okay"},
		{"It's for seven to ten year olds with clumsy feet.", ""},
		{"If you can do the stairs with the pain at three out of ten, you are in the right place.", ""},
	} {
		track := say("Good morning all. "+c.text+" Now we begin.", false)
		if got := strings.Join(texts(Find(track, track.Words[len(track.Words)-1].Time.At).Effort), "; "); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}
