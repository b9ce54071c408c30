package main

// nearest returns the candidate that differs least from word, the first such one, or "" when none is near:
// at most one edit for each three characters of word.
func nearest(word string, candidates []string) string {
	best, least := "", len([]rune(word))/3+1
	for _, c := range candidates {
		if d := edits([]rune(word), []rune(c)); d < least {
			best, least = c, d
		}
	}
	return best
}

// edits returns how many characters must be put in, left out, exchanged, or swapped with their neighbour to make b of a:
// the restricted distance of Damerau (1964), by the table of Wagner and Fischer (1974).
func edits(a, b []rune) int {
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		d[i][0] = i
	}
	for j := range b {
		d[0][j+1] = j + 1
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			change := d[i-1][j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			d[i][j] = min(change, d[i-1][j]+1, d[i][j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}
