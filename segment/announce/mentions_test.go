package announce

import (
	"fmt"
	"strings"
	"testing"

	"captally.example/captally/segment/caption"
)

// trackOf makes a track of a text, a word every half second.
func trackOf(s string) *caption.Track {
	t := &caption.Track{Name: "test"}
	for _, w := range strings.Fields(s) {
		core := strings.TrimRight(w, ".,?!:;")
		n := len(t.Words)
		at := caption.At(float64(n) * 0.5)
		t.Words = append(t.Words, caption.Word{Text: core, Fold: strings.ToLower(core), After: w[len(core):], Time: caption.Spread{At: at, Low: at, High: at}})
	}
	return t
}

// doseOf writes the likeliest reading of each amount in a text: "reps 10 each", "rest 30"; amounts that announce nothing are left out.
func doseOf(s string) string {
	var out []string
	best := map[int]Mention{}
	var order []int
	for _, m := range Find(trackOf(s)) {
		switch m.Kind {
		case Reps, Seconds, Rest, Hold, Remaining, Gone:
		default:
			continue
		}
		if m.Value == 0 || m.Weight < 0.35 {
			continue
		}
		b, ok := best[m.First]
		if !ok {
			order = append(order, m.First)
		}
		if m.Weight > b.Weight {
			best[m.First] = m
		}
	}
	for _, i := range order {
		m := best[i]
		text := fmt.Sprintf("%s %g", m.Kind, m.Value)
		if m.High > m.Value {
			text += fmt.Sprintf("-%g", m.High)
		}
		if m.Scope != Here {
			text += " " + scopeNames[m.Scope]
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

func TestDoseMentions(t *testing.T) {
	wrong := 0
	n := 0
	for line := range strings.Lines(doseSentences) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		sentence, want, _ := strings.Cut(line, " => ")
		sentence = strings.TrimSuffix(sentence, " =>")
		n++
		if got := doseOf(sentence); got != want {
			wrong++
			t.Errorf("%s\n  got  %s\n  want %s", sentence, got, want)
		}
	}
	t.Logf("%d of %d sentences as wanted", n-wrong, n)
}

// Each line: a sentence => what it announces. Sentences without anything behind the arrow announce nothing.
const doseSentences = `
# Repetitions, in several voices.
Let's have ten on each side. => reps 10 each
Twelve per leg, please. => reps 12 each
I'd like eight a side from you. => reps 8 each
A dozen for each arm. => reps 12 each
Six of those, nice and slow. => reps 6
We want fifteen of these. => reps 15
Two sets of ten squats. => reps 10
Three lots of eight, folks. => reps 8
3 sets of 12 bridges. => reps 12
You're doing twenty calf raises. => reps 20
Ten clams, then we rest. => reps 10
Give me eight slow bridges. => reps 8
Wall slides, twelve of them. => reps 12
Five of everything today. => reps 5 all
It's eight of each, whatever we do. => reps 8 all
Everything is ten this morning. => reps 10 all
Two sets of twelve on everything today. => reps 12 all
It's ten on every exercise. => reps 10 all
Same again, fifteen. => reps 15
Another ten on the left. => reps 10 each
Eight again for the right. => reps 8
We'll do just six this time. => reps 6
Let's make it fourteen. => reps 14 change
Make that sixteen, you've plenty left. => reps 16 change
Actually, call it ten. => reps 10 change
Aim for a dozen. => reps 12
Sit to stand, ten, and up. => reps 10
Heel raises, twenty. => reps 20
Mini squats are always fifteen. => reps 15
Here we go with ten repetitions. => reps 10
Eight each way. => reps 8 each
I want twelve good ones, so twelve squats. => reps 12, reps 12
Ten with the right, ten with the left. => reps 10 each, reps 10 each
Somewhere between eight and twelve of each. => reps 8-12 all
Eight to ten lunges. => reps 8-10
We're aiming for half a dozen. => reps 6
Right then pet, ten knee bends for us. => reps 10
Aye, gie me ten mair squats. => reps 10
Y'all give me eight good stands. => reps 8
Okay team, fifteen reps coming up. => reps 15
Do ten of them on the other leg. => reps 10
Five on this leg, five on the other. => reps 5 each, reps 5 each
Let's get eight step-ups done. => reps 8
The number is twelve, so twelve curls. => reps 12
Twenty-one of those for the right leg. => reps 21
# Timed sets.
Hold it for thirty seconds on each side. => seconds 30 each
Forty-five seconds each leg. => seconds 45 each
Plank for thirty seconds, off you go. => seconds 30
Tandem stand, twenty seconds, starting now. => seconds 20
Thirty seconds, eyes open. Go. => seconds 30
Marching, one minute. Off we go. => seconds 60
We'll stay there for half a minute, holding. => seconds 30
Stand on your left leg for twenty seconds. => seconds 20
A whole minute on each. => seconds 60 each
Ninety seconds of marching, begin. => seconds 90
One minute of step ups, and go. => seconds 60
Hold this stretch for forty seconds. => seconds 40
Another thirty seconds on the right. => seconds 30 each
Let's make it forty seconds. => seconds 40 change
Calf stretch, 30 seconds each side. => seconds 30 each
You've 30s each leg. => seconds 30 each
# Rests.
Have a breather, about forty seconds. => rest 40
Take a minute and a half of rest. => rest 90
Rest there, thirty seconds. => rest 30
A minute's rest now. => rest 60
Sixty seconds' rest. => rest 60
Shake the legs out, thirty seconds. => rest 30
Half a minute to get your breath back. => rest 30
We'll have three quarters of a minute here to recover. => rest 45
A minute and a quarter of rest. => rest 75
Thirty seconds off. => rest 30
Take twenty seconds, sip of water. => rest 20
Ninety seconds before the next set. => rest 90
You've earned a full minute. => rest 60
Thirty seconds between sets and a minute between exercises. => rest 30 sets, rest 60 exercises
In between exercises fifteen seconds, in between rounds forty-five seconds. => rest 15 exercises, rest 45 sets
Three sets of ten, thirty seconds in between. => reps 10, rest 30 sets
Forty seconds till the second set. => rest 40
Two minutes' break. => rest 120
Give yourself thirty seconds to recover. => rest 30
Breathing control for forty seconds. => rest 40
Grab a drink, you've forty-five seconds. => rest 45
Recover for a minute. => rest 60
We rest for 1 minute 30 seconds. => rest 90
Catch your breath for two and a half minutes. => rest 150
# Holds within a repetition.
With a five second hold at the top. => hold 5
Hold it for three, then lower. => hold 3
Hold for a count of five. => hold 5
A 3-second hold each time. => hold 3
Squeeze for five seconds each time and let go. => hold 5
It's a two second pause at the bottom. => hold 2
Six on each leg with a five second hold. => reps 6 each, hold 5
# Time that is left or gone.
Ten more seconds. => remaining 10
Five seconds left. => remaining 5
Ten seconds to go. => remaining 10
Ten to go. => remaining 10
Last five seconds. => remaining 5
Three more. => remaining 3
Four left. => remaining 4
That's half a minute gone. => gone 30
Twenty seconds done. => gone 20
And that's your thirty. => gone 30
There's your twenty. => gone 20
That's thirty, lovely. => gone 30
Is that twenty? => gone 20
Thirty seconds down, thirty seconds to go. => gone 30, remaining 30
Another fifteen seconds left. => remaining 15
# Numbers that announce nothing of the kind.
Put two cushions under your knees. =>
There's a picture on page two. =>
It's for your 12 week check. =>
Pain up to a four out of ten is fine. =>
Keep it under three out of ten. =>
Ice it for twenty minutes, three times a day. =>
Do this three times a week. =>
Finger one, joint two. =>
Station one is the chair. =>
It's forty seconds of work and twenty seconds of rest. => seconds 40 all, rest 20 all
It's four of each, so sixteen. => reps 4 all, reps 16
Stay up and pulse it, ten. Ten, nine, eight, seven, six. => reps 10
Since nine o'clock this morning. =>
My mother won it in 1962. =>
I walked up two sets of stairs. =>
Use one or two kilos. =>
Stand with your feet ten centimetres apart. =>
She was eighty-three years old. =>
It takes six to eight weeks. =>
You could be a five or a six. =>
Bend to ninety degrees. =>
He has four screens on his desk. =>
Breathe in for four, out for six. =>
One hand on the chair. =>
Both feet flat, one foot forward. =>
Come back in twenty minutes. =>
Call 911 if it gets worse. =>
I've been at it for thirty years. =>
That one was better. =>
The bus is the number 11. =>
A hundred people asked me. =>
It was fourteen seconds, that light. =>
Chapter three of your booklet. =>
One, two, three, four, five, six. =>
Ten. Nine. Eight. Seven. =>
In three, two, one, go. =>
Twelve of us were there on day three. =>
I said seven twice. =>
Knee bent to about sixty degrees. =>
# More of the same, other mouths.
Right so, ten of the knee bends now. => reps 10
Let's go for twelve. => reps 12
Shall we say ten? => reps 10
Can you give me fifteen? => reps 15
I'm looking for eight from everyone. => reps 8
You've got twenty to do. => reps 20
Ten reps each leg. => reps 10 each
10 reps on each side, please. => reps 10 each
We're going to do six on this side. => reps 6 each
Try to get to ten. => reps 10
Our target's a dozen on each leg. => reps 12 each
Fifteen on the right this time. => reps 15 each
Twelve slow heel raises. => reps 12
Eight marches on each leg. => reps 8 each
We'll go up to ten. => reps 10
Work up to fifteen squats. => reps 15
Two sets of fifteen. => reps 15
Three sets of ten on each side. => reps 10 each
That'll be ten on each leg, mate. => reps 10 each
Bridges next, fifteen. => reps 15
First set, ten. => reps 10
Second set, another twelve. => reps 12
Last set, eight only. => reps 8
Make it a round dozen. => reps 12 change
I've changed my mind, do fifteen. => reps 15
Tell you what, make it eight. => reps 8 change
You did so well, let's make it twenty. => reps 20 change
Ten times each. => reps 10 each
Do it six times. => reps 6
Six times on the left. => reps 6 each
Repeat that ten times. => reps 10
Clam shells, fifteen a side. => reps 15 each
We're doing ten of each exercise. => reps 10 all
For every exercise we do twelve. => reps 12 all
It's ten reps for everything today. => reps 10 all
Just the five. => reps 5
Only eight of these, they're tough. => reps 8
And we're off, ten squats. => reps 10
Dead bugs, six per side. => reps 6 each
Ready for twelve? => reps 12
So it's ten press-ups, or on the wall. => reps 10
Ten all told. => reps 10 change
Keep it to ten. => reps 10
# timed
We hold each side for thirty seconds. => seconds 30
You're holding for forty-five seconds. => seconds 45
Hold that for a minute. => seconds 60
Let's hold for half a minute each side. => seconds 30 each
Twenty seconds per side. => seconds 20 each
A minute each leg. => seconds 60 each
Stand there for thirty seconds. => seconds 30
Balance for twenty seconds. => seconds 20
March for one minute. => seconds 60
Keep going for thirty seconds. => seconds 30
We do this for forty-five seconds. => seconds 45
Work for forty seconds. => seconds 40
Side plank, fifteen seconds. => seconds 15
Thirty-second hold on each leg. => seconds 30 each
Single leg stand, thirty seconds, go. => seconds 30
Your thirty seconds starts now. => seconds 30
Thirty seconds on the clock. Go. => seconds 30
I'll time you for a minute. => seconds 60
Stretch for twenty to thirty seconds. => seconds 20-30
# rests
Rest for thirty seconds. => rest 30
Thirty seconds rest. => rest 30
And rest. Forty seconds. => rest 40
Take a minute. => rest 60
Have a minute. => rest 60
You have thirty seconds. => rest 30
Have thirty seconds' rest. => rest 30
Relax for half a minute. => rest 30
Let's take forty-five seconds. => rest 45
Sit down for a minute. => rest 60
Breathe for thirty seconds. => rest 30
Take sixty seconds to recover. => rest 60
Get your breath back for a minute. => rest 60
Thirty seconds' breather. => rest 30
Pause for twenty seconds. => rest 20
Walk about for thirty seconds. => rest 30
Ninety seconds rest before we go again. => rest 90
A minute off. => rest 60
Thirty seconds and we go again. => rest 30
Back in thirty seconds. => rest 30
Twenty seconds to swap over. => rest 20
Give it a minute. => rest 60
Half a minute's rest between sets. => rest 30 sets
Rest a minute between exercises. => rest 60 exercises
Between each set you get forty-five seconds. => rest 45 sets
Forty seconds' rest between each exercise. => rest 40 exercises
Wee rest, thirty seconds. => rest 30
Right, drinks break, one minute. => rest 60
# holds
Lift and hold for three seconds. => hold 3
Hold it there for five. => hold 5
With a three second pause. => hold 3
Hold each one for five seconds. => hold 5
Keep the squeeze for five seconds every time. => hold 5
# cues
Halfway, fifteen seconds to go. => remaining 15
Fifteen seconds remaining. => remaining 15
Another ten seconds to go. => remaining 10
Nearly there, five more seconds. => remaining 5
Last ten seconds. => remaining 10
Two more to go. => remaining 2
Five to go now. => remaining 5
That's fifteen seconds gone. => gone 15
Ten seconds in. => gone 10
Thirty seconds gone already. => gone 30
And that's your minute. => gone 60
That's the thirty seconds. => gone 30
Only three left. => remaining 3
Final ten. => remaining 10
Last five. => remaining 5
# nothing
Three of my patients do this daily. =>
Do these exercises two or three times a day. =>
It was about ten years ago. =>
On a scale of nought to ten. =>
If it's above a five, stop. =>
You need one chair and two towels. =>
Level two of the programme. =>
I'll see you at half past nine. =>
She is ninety-one, you know. =>
We have three rounds today. =>
Give it six to eight weeks. =>
About an inch or two. =>
A 45 degree angle, roughly. =>
Walk for twenty minutes every day. =>
Rest for forty-eight hours. =>
Up in two, down in three. =>
The first ten minutes are a warm-up. =>
Three things to remember. =>
Bring both hands to the front. =>
Phone us on 0161 496 0000. =>
My two dogs are barking. =>
There are four exercises in this video. =>
We'll be about fifteen minutes altogether. =>
Count to yourself. =>
Step out with one foot. =>
# And more.
Okay friends, let's knock out twelve of these bad boys. => reps 12
We'll start with a set of eight. => reps 8
Your goal is fifteen. => reps 15
So that's six on the first leg. => reps 6 each
How about ten? => reps 10
Ten more of the same. => reps 10
Right arm, twelve. => reps 12
Now do your left, twelve. => reps 12
Eight to begin with. => reps 8
Let's bump it up to fifteen. => reps 15 change
Drop it down to eight if you're tired. => reps 8 change
Ten ankle pumps. => reps 10
We're here for thirty seconds. => seconds 30
Thirty seconds of that. => seconds 30
A forty-second plank. => seconds 40
Two minutes of walking on the spot. => seconds 120
Put your feet up, thirty seconds. => rest 30
Thirty seconds to yourself. => rest 30
Five seconds at the top. => hold 5
Pause for two at the bottom. => hold 2
That was thirty seconds. => gone 30
He ran ten kilometres. =>
Take two paracetamol. =>
Channel five had a programme on it. =>
Four out of five people get this. =>
# As recognisers write.
ten each side go one two three => reps 10 each
have a rest now thirty seconds then the next one => rest 30
and shake it out sir do seconds => rest 30
fifteen of those and off we go => reps 15
`

// TestNumbersOfCounts asks of numbers in the middle of counts that hardly any of their weight says that they announce repetitions.
func TestNumbersOfCounts(t *testing.T) {
	for _, c := range []struct {
		sentence string
		counts   []float64 // numbers of a count
		doses    []float64 // numbers that announce
	}{
		{"Towel squash, twelve of those. Push, two, three, ease, twelve. Push, two, three, ease, eleven. Push, two, three, ease, ten. Push.", []float64{11}, []float64{12}},
		{"Twenty slow heel taps. Go. Two, four, lovely, six, eight, don't rush, ten, twelve.", []float64{4, 6, 8, 10}, []float64{20}},
		{"Arm swings, fifteen. Up, five, soft elbows now, ten, keep breathing through the nose, fifteen.", []float64{5, 10}, nil},
		{"Hold, two, three and let go. That's four. Lift and hold, two, three. That's five. Lift.", []float64{4, 5}, nil},
		{"First four of those, then six of those, then eight of those.", nil, []float64{4, 6, 8}},
		{"Five of these. And up. One. Two. Three. Four. Five.", []float64{2, 3, 4}, []float64{5}},
	} {
		weight := map[float64]float64{}
		for _, m := range Find(trackOf(c.sentence)) {
			if m.Kind == Reps {
				weight[m.Value] = max(weight[m.Value], m.Weight)
			}
		}
		for _, v := range c.counts {
			if weight[v] > 0.45 {
				t.Errorf("%s\n  %g has weight %.2f", c.sentence, v, weight[v])
			}
		}
		for _, v := range c.doses {
			if weight[v] < 0.6 {
				t.Errorf("%s\n  %g has weight %.2f only", c.sentence, v, weight[v])
			}
		}
	}
}
