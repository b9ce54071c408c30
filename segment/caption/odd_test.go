package caption

import (
	"bytes"
	"errors"
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
	{"times-on-one-line.srt", "subrip", "cue",
		"one@1 two three@3 four@5", "", "1 the times of several cues on one line|1 the file ends without a line end"},
	{"times-on-one-line.vtt", "webvtt", "cue",
		"one@1 two 3@3 at 10:30 now four@5", "", "1 the times of several cues on one line"},
	{"numbers-from-two.srt", "subrip", "cue",
		"one@1 3@3 four@5", "", "4 the cues are numbered from 2 on"},
	{"words-behind-times.srt", "subrip", "cue",
		"one@1/Coach 2/Coach 3@3", "", "2 words on the line of the time"},
	{"chapters.vtt", "webvtt", "block",
		"Welcome@0 Squats@60 3 sets of 10", "", "2 the file says that it holds chapters, not what is said"},
	{"ruby.vtt", "webvtt", "cue",
		"one@1 two three", "", "4 text above the words that says how they are read"},
	{"own-references.ttml", "ttml", "cue",
		"one@1 rep two three é", "", ""},
	{"angles-in-words.ttml", "ttml", "cue",
		"hips@1 knees a@3 b three@5", "", ""},
	{"seconds-and-nanos.json", "json", "word",
		"one@1.2 two@2", "", ""},
	{"words-alone.json", "json", "word",
		"one@1 two@2", "", ""},
	{"milliseconds.json", "json", "cue",
		"one@1 two@2", "", "0 times are whole numbers, and in seconds the words would take minutes each"},
	{"frames.csv", "table", "cue",
		"one@1.4 two@3", "", "2 frames after the seconds"},
	{"open-quote.csv", "table", "cue",
		"say@1 one now two@3 three@5", "", "3 a quote that is opened and not closed"},
	{"words.csv", "table", "word",
		"one@1 two@2 3@3 four@4.1", "", ""},
	{"unknown-headings.csv", "table", "cue",
		"eins@1 zwei@3", "", "1 headings of the table unknown"},
	{"length-before-start.csv", "table", "cue",
		"one@5 two@9", "", ""},
	{"clock-begins-again.txt", "transcript", "block",
		"one@3490.5 two@3560.5 three@3590.5 four@3615.5 five@3680.5", "", "4 the clock begins again at zero"},
	{"numbers-above-times.txt", "transcript", "cue",
		"one@1 two@3", "", ""},
	{"quoted-mail.txt", "transcript", "cue",
		"one@1 two@3", "", ""},
	{"numbered-blocks.txt", "transcript", "cue",
		"one@1.5 3@5.5 4 five@9.5", "", ""},
	{"metadata.vtt", "webvtt", "", "", "", "2 it holds metadata|5 holds data and no words|0 times, but no words"},
	{"repeats-between-pop-ons.vtt", "webvtt", "cue",
		"one@1 two two@3 three seven@5 eight@7 nine@9 ten ten@11", "", ""},
	{"times-in-round-brackets.txt", "transcript", "cue",
		"one@3.5 two@9.5 three@15.5 rest@22.5 for 0:30 four@40.5", "", ""},
	{"names-before-times.txt", "transcript", "cue",
		"one@1.5/Ann two@5.5/Bob three@9.5/Ann", "", ""},
	{"lists-with-colons.txt", "transcript", "cue",
		"one@1.5 two@5.5 0:30 rest 3@12.5 2 1 go at@20.5 9:30 we start", "", ""},
	{"glued-and-apart.txt", "transcript", "cue",
		"one@1.5 2 two@5.5 3@9.5", "", ""},
	{"drop-frames.txt", "transcript", "cue",
		"one@1.4 two@5 three@9.6667", "", "1 frames after the seconds"},
	{"marks-before-times.txt", "transcript", "cue",
		"one@1.5 two@5.5 three@9.5", "", ""},
	{"labels-and-numbers.txt", "transcript", "cue",
		"1@1.5 2@2.5 three@3.5 seconds", "", ""},
	{"times-inside.lrc", "lrc", "word",
		"one@1 two@2 three@3 four@4", "", ""},
	{"few-decimals.lrc", "lrc", "cue",
		"one@1.5 two@2 three@3.125", "", ""},
	{"words-in-lists.json", "json", "cue",
		"one@1 two", "", ""},
	{"lines.json", "json", "cue",
		"one@1 two 3@3", "", "0 times are whole numbers, and in seconds the words would take minutes each"},
	{"speakers.json", "json", "cue",
		"one@1/Ann two@3/Bob", "", ""},
	{"separators-and-digits.txt", "transcript", "cue",
		"４@1.5/Ann five@5.5/Ann 6@9.5/Ann", "", "3 the file ends without a line end"},
	{"rollup-of-numbers.vtt", "webvtt", "word",
		"1@1 2@1.5 3@2 4@3.01 4@6.01 5@7", "[Music]", ""},
	{"numbers-without-blank-lines.srt", "subrip", "cue",
		"ten@1 to go 3@3 4@5 5 six@7", "", ""},
	{"rollup-with-voices.vtt", "webvtt", "word",
		"one@1/Ann two@1.5/Ann 3@3.01/Ann 4@4/Ann", "", ""},
	{"rollup-without-fillers.srt", "subrip", "cue",
		"one@1 two three@3 4@5 5 4@7 5", "", ""},
	{"untimed-numbers.json", "json", "cue",
		"1@1 2 3 up@5 4@6.5 5", "", "1 word without a time among words that have one"},
	{"karaoke-in-pieces.ass", "ssa", "word",
		"one@1.5 two@2.3 three@4", "", ""},
}

// TestTableWithoutColumns: headings in quotes that only seem to name a start and a text.
func TestTableWithoutColumns(t *testing.T) {
	if track, err := Parse([]byte("\"start,x\",text\n1,2,one\n"), "x.csv", Options{}); !errors.Is(err, ErrNoTimes) {
		t.Errorf("got %v, %v; want no times", track, err)
	}
}

// TestInvisibleLines: lines of nothing but invisible marks are no numbers of cues.
func TestInvisibleLines(t *testing.T) {
	track, err := Parse([]byte("1\n00:00:01,000 --> 00:00:02,000\none\n\u2060\n00:00:03,000 --> 00:00:04,000\n\u2060\ntwo\n"), "x.srt", Options{})
	if err != nil {
		t.Fatal(err)
	}
	checkWords(t, "x.srt", track, "one@1 two@3")
}

// TestWriteLateWord: a word that begins after its cue keeps its time when it is written.
func TestWriteLateWord(t *testing.T) {
	track, err := Parse([]byte("WEBVTT\n\n00:01.000 --> 00:04.000\n<00:02.000>one <00:03.000>two\n"), "late.vtt", Options{})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := track.WriteVTT(&out); err != nil {
		t.Fatal(err)
	}
	back, err := Parse(out.Bytes(), "back.vtt", Options{})
	if err != nil {
		t.Fatal(err)
	}
	checkWords(t, "back.vtt", back, "one@2 two@3")
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
