package corpus

import "math"

// logistic fits a logistic regression with a ridge on every weight, by Newton's method.
//
// McCullagh P, Nelder JA 1989, Generalized Linear Models, 2nd edition, section 4.4; from memory.
func logistic(x [][]float64, y []bool, ridge float64) []float64 {
	if len(x) == 0 {
		return nil
	}
	const rounds = 30 // far more than it takes
	n := len(x[0])
	w := make([]float64, n)
	for range rounds {
		slope := make([]float64, n)
		bend := make([][]float64, n)
		for i := range bend {
			bend[i] = make([]float64, n)
			bend[i][i] = ridge
			slope[i] = -float64(ridge * w[i])
		}
		for k, row := range x {
			p := chance(w, row)
			miss := -p
			if y[k] {
				miss = 1 - p
			}
			for i, a := range row {
				slope[i] += float64(miss * a)
				for j, b := range row {
					bend[i][j] += float64(p * (1 - p) * a * b)
				}
			}
		}
		for i, step := range solve(bend, slope) {
			w[i] += step
		}
	}
	return w
}

// chance returns the probability that x speaks for with weights w.
func chance(w, x []float64) float64 {
	z := 0.0
	for i := range x {
		z += float64(w[i] * x[i])
	}
	return 1 / (1 + math.Exp(-z))
}

// solve returns v with a v = b for a symmetric positive definite a, by elimination. It overwrites both.
func solve(a [][]float64, b []float64) []float64 {
	n := len(b)
	for i := range n {
		for k := i + 1; k < n; k++ {
			f := a[k][i] / a[i][i]
			for j := i; j < n; j++ {
				a[k][j] -= float64(f * a[i][j])
			}
			b[k] -= float64(f * b[i])
		}
	}
	for i := n - 1; i >= 0; i-- {
		for j := i + 1; j < n; j++ {
			b[i] -= float64(a[i][j] * b[j])
		}
		b[i] /= a[i][i]
	}
	return b
}
