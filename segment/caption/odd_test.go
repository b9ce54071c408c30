package caption

import (
	"os"
	"testing"
)

// odd holds the files of testdata/more: the traits of testdata/nasty in other formats, encodings and line ends, and several at once.
// Columns as there.
var odd = []struct{ file, format, timing, words, events, warn string }{
	{"frames-utf16.ttml", "ttml", "cue",
		"heel@2.2 raise one@5.4", "", ""},
	{"rollup-cr.srt", "subrip", "cue",
		"toes@5 up and@7 one two@9 three", "", ""},
	{"zero-overlap-open.srt", "subrip", "cue",
		"up@1 down@2 slowly and@4 nine@6", "", "2 of no length|6 lasts beyond|10 without an end"},
	{"drop-frames.srt", "subrip", "cue",
		"six@1.5 seven@3 eight", "", "2 frames"},
	{"null-words.json", "json", "",
		"lift@0.5 and 8 9@3.1 rest", "", "3 word without a time|4 segment without a time"},
	{"semicolons.csv", "table", "cue",
		"ready@3.5/Physio and/Physio one/Physio two@6.25", "", ""},
	{"times-after.txt", "transcript", "",
		"lift@0.5 the leg and@8.5 lower it rest@14.5 there", "", "1 stand after"},
	{"digits-of-scripts.vtt", "webvtt", "cue",
		"১@1 ২ ৩ ४@2 ５ ۶", "", ""},
	{"names-and-chevrons.srt", "subrip", "cue",
		"ready@1/PHYSIO yes@3/HELPER one/PHYSIO two@6", "", ""},
	{"loop.vtt", "webvtt", "cue",
		"nine@10 more nine@12 more nine@14 more nine@16 more", "", "3 stuck"},
	{"cues-twice.srt", "subrip", "cue",
		"one@1 two@2.5 two@4", "", "6 twice"},
	{"out-of-order.vtt", "webvtt", "cue",
		"one@1 two@3 three@5", "", "6 begins before"},
	{"negative-length.ttml", "ttml", "cue",
		"hold@5 and@7 let go", "", "2 ends before it starts"},
	{"no-blank-lines.vtt", "webvtt", "cue",
		"seven@1 8@2 9@3 ten", "", ""},
	{"arrows-in-words.vtt", "webvtt", "cue",
		"lift@1 hold lower from@4 0:10 here", "", ""},
	{"some-numbers-missing.srt", "subrip", "cue",
		"one@1 2@2 3@3 four@4", "", ""},
	{"blocks-inside.vtt", "webvtt", "cue",
		"one@1 two@3", "", ""},
	{"references.srt", "subrip", "cue",
		"knees@1 hips don’t 4@3 more 5", "", ""},
	{"blanks-and-hyphens.srt", "subrip", "cue",
		"two@1 three four kneeling@3 eight nine", "", ""},
	{"surrogates.json", "json", "cue",
		"one@1 two three", "", ""},
	{"surrogates-utf16.srt", "subrip", "cue",
		"one@1 two", "", ""},
	{"cut-in-time.vtt", "webvtt", "cue",
		"one@1 two@3", "", "9 "},
	{"cut-in-rune.srt", "subrip", "cue",
		"naïve@1 one two@3 caf", "", "7 without a line end"},
	{"western-cr.vtt", "webvtt", "cue",
		"one@1 two that’s@2 café", "", "4 Windows-1252"},
	{"utf16be-crlf.srt", "subrip", "cue",
		"five@1 6@2", "", ""},
	{"utf32.vtt", "webvtt", "cue",
		"fünf@1", "", ""},
	{"utf16-transcript.txt", "transcript", "cue",
		"sit@2.5 tall and@6.5 one two@9.5", "", "0 UTF-16"},
	{"scrambled.vtt", "webvtt", "cue",
		"don’t@1 stop café", "", "0 turned back"},
	{"dashes.srt", "subrip", "cue",
		"Ready@1 Yes one two@3 three", "", ""},
	{"sounds.ttml", "ttml", "cue",
		"and@1 one five@7", "[upbeat music]|♪ one two ♪|(clapping)", ""},
	{"growing.vtt", "webvtt", "cue",
		"lift@1 and@2 lower@3 5@4 6@5", "", ""},
	{"drawing.ass", "ssa", "",
		"one@1 two three@4 four@4.5", "", "8 twice"},
	{"times-together.lrc", "lrc", "",
		"and@10 hold one@15.5 two@16 and@20 hold", "", ""},
	{"escaped-tags.vtt", "webvtt", "cue",
		"one@1 two less@3 than three", "", ""},
	{"references-twice.ttml", "ttml", "cue",
		"don't@1 stop 1@3 2", "", ""},
	{"clock-jump.srt", "subrip", "cue",
		"Chair@0 strength and@5 one two@8", "", "6 jumps"},
	{"carried.ttml", "ttml", "cue",
		"sit@1 tall and@3 one two@5 two@7 more", "", ""},
	{"carried.ass", "ssa", "cue",
		"heels@1 down three@3 four@5 four@7", "", ""},
	{"dotted-times.srt", "subrip", "cue",
		"one@1.5 2@3", "", "2 without colons"},
	{"letters-in-times.srt", "subrip", "cue",
		"one@1 two@2", "", "2 letters in the place"},
	{"no-start.srt", "subrip", "cue",
		"one@1 two@2 three@4", "", "6 without a start"},
	{"other-arrows.vtt", "webvtt", "cue",
		"one@1 two@2 three@3", "", "3 arrow"},
	{"speakers-above.txt", "transcript", "cue",
		"sit@3.5/Coach tall/Coach like@9.5/Helper this/Helper yes@14.5/Coach one/Coach two/Coach 3/Coach", "", ""},
	{"units-and-talk.txt", "transcript", "block",
		"rest@5.5 for 0:45 now see@50.5 you at 9:30 am 12@70.5 more", "", ""},
	{"lengths.tsv", "table", "cue",
		"and@1.5 3@2.6 4@3.5 5", "", ""},
	{"word-list.json", "json", "word",
		"ready@1.2 10 nine@3 8@4", "", "2 word without a time"},
	{"stuck-by-itself.json", "json", "",
		"one@1 two three six@4 six six six six six", "", "2 repeated itself"},
	{"timed-text.xml", "ttml", "cue",
		"let's@0.5 go one@2.25 two", "", ""},
	{"names-of-cues.vtt", "webvtt", "cue",
		"three@1 two@2 one@4", "", ""},
	{"capitals.srt", "subrip", "cue",
		"SET@1/COACH TWO/COACH READY/COACH ONE@2/COACH TWO@3/HELPER REST@4/COACH TEN/COACH", "", ""},
	{"brackets.srt", "subrip", "cue",
		"left@2 side hold 10@3", "[counting continues]|*claps*", ""},
	{"empty-cues.vtt", "webvtt", "cue",
		"one@2 two@4", "", ""},
	{"tags.srt", "subrip", "cue",
		"hold@1 and two3 if@3 a<b and b a then four", "", ""},
	{"over-sixty.vtt", "webvtt", "cue",
		"one@75.5 two@3690", "", "3 above 59"},
	{"voices-and-classes.vtt", "webvtt", "cue",
		"yes@1/Helper one two/Coach three/Coach", "", ""},
	{"one-word-underlined.srt", "subrip", "word",
		"7@1 8@2 9@3", "", ""},
	{"spaced-times.srt", "subrip", "cue",
		"one@1 two@2.5", "", ""},
	{"offset.lrc", "lrc", "",
		"one@1.5 two@2.5", "", "1 [offset]"},
	{"list-numbers.txt", "transcript", "cue",
		"stand@4.5 up sit@9.5 down 3@15.5 more", "", ""},
	{"joined-with-marks.vtt", "webvtt", "cue",
		"one@1 two@3", "", ""},
	{"full-width-times.srt", "subrip", "cue",
		"３@1 ４ five@3.5", "", ""},
	{"arabic-times.vtt", "webvtt", "cue",
		"٧@1 ٨", "", ""},
	{"devanagari-times.txt", "transcript", "cue",
		"एक@1.5 दो ३@5.5 ४ ५@9.5", "", ""},
	{"persian-digits.csv", "table", "cue",
		"۳@1 ۴ five@3", "", ""},
	{"bengali-numbers.srt", "subrip", "cue",
		"শুরু@1 ৩@3", "", ""},
	{"line-separators.srt", "subrip", "cue",
		"seven@1 eight nine@3 ten", "", ""},
	{"slash-breaks.srt", "subrip", "cue",
		"seven@1 eight", "", ""},
	{"one-digit-fields.srt", "subrip", "cue",
		"seven@1.5 eight@3.5", "", ""},
	{"ends-before.srt", "subrip", "cue",
		"one@5 two@6 three@9", "", "2 cue ends before it starts"},
	{"no-length.srt", "subrip", "cue",
		"one@1 two three@4", "", "2 cue of no length"},
	{"breaks-in-brackets.srt", "webvtt", "cue",
		"one@1 two three@3", "", "1 text before the first cue|6 no WEBVTT line at the start|6 arrow not written as -->"},
	{"karaoke-marks.ass", "ssa", "word",
		"one@1 two@1.5 three@2.5 four@3 five@3.5", "", ""},
	{"no-name.ssa", "ssa", "cue",
		"one@1 two@3/Ann", "", ""},
	{"odd-spaces.txt", "transcript", "cue",
		"one@1.5 2@5.5 ３@9.5", "", ""},
	{"brackets-of-the-east.srt", "subrip", "cue",
		"one@1 two@3", "［Music］|（laughs）|【applause】", ""},
}

func TestOdd(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range odd {
		seen[c.file] = true
		b, err := os.ReadFile("testdata/more/" + c.file)
		if err != nil {
			t.Error(err)
			continue
		}
		track, err := Parse(b, c.file, Options{})
		if err != nil {
			t.Error(err)
			continue
		}
		if track.Format != c.format || c.timing != "" && track.Timing.String() != c.timing {
			t.Errorf("%s: %s with %s times, want %s with %s", c.file, track.Format, track.Timing, c.format, c.timing)
		}
		checkWords(t, c.file, track, c.words)
		checkEvents(t, c.file, track, c.events)
		checkWarnings(t, c.file, track, c.warn)
		checkTrack(t, c.file, track)
	}
	files, err := os.ReadDir("testdata/more")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !seen[f.Name()] {
			t.Errorf("testdata/more/%s: no row says what to read in it", f.Name())
		}
	}
}
