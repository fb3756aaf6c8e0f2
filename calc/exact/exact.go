package exact

import "math"

const ln2 = 0.693147180559945309417232121458

// Exp returns e to the x, within a few units of the last place for |x| under 700; 0 below that and +Inf above.
func Exp(x float64) float64 {
	if x < -700 {
		return 0
	}
	if x > 700 {
		return math.Inf(1)
	}
	k := math.Floor(float64(x/ln2) + 0.5)
	// ln 2 in two parts, so that the remainder keeps its digits.
	r := float64(x-float64(k*0.693147180369123816490)) - float64(k*1.90821492927058770002e-10)
	// The Taylor series of e to the r by Horner's rule. For r up to 0.35 the remaining terms are below the last place.
	sum := 1.0 / 6227020800
	sum = 1.0/479001600 + float64(r*sum)
	sum = 1.0/39916800 + float64(r*sum)
	sum = 1.0/3628800 + float64(r*sum)
	sum = 1.0/362880 + float64(r*sum)
	sum = 1.0/40320 + float64(r*sum)
	sum = 1.0/5040 + float64(r*sum)
	sum = 1.0/720 + float64(r*sum)
	sum = 1.0/120 + float64(r*sum)
	sum = 1.0/24 + float64(r*sum)
	sum = 1.0/6 + float64(r*sum)
	sum = 1.0/2 + float64(r*sum)
	sum = 1 + float64(r*sum)
	sum = 1 + float64(r*sum)
	return sum * math.Float64frombits(uint64(1023+int(k))<<52) // 2 to the k
}

// Log returns the natural logarithm of a positive x, otherwise NaN.
func Log(x float64) float64 {
	if !(x > 0) {
		return math.NaN()
	}
	m, e := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m, e = 2*m, e-1
	}
	s := (m - 1) / (m + 1)
	square := float64(s * s)
	sum := 0.0
	for i := 23.0; i >= 1; i -= 2 {
		sum = 1/i + float64(square*sum)
	}
	return float64(2*float64(s*sum)) + float64(float64(e)*ln2)
}

// Quantile returns the standard normal number below which a share p lies: algorithm AS 241 (Wichura, "The percentage
// points of the normal distribution", Applied Statistics 37, 1988, the seven-figure form PPND7), for 0 < p < 1; good to
// 1 part in 10^7.
func Quantile(p float64) float64 {
	q := p - 0.5
	if q >= -0.425 && q <= 0.425 {
		r := 0.180625 - float64(q*q)
		top := chain(r, 59.109374720, 159.29113202, 50.434271938, 3.3871327179)
		return float64(q*top) / chain(r, 67.187563600, 78.757757664, 17.895169469, 1)
	}
	tail := p
	if q > 0 {
		tail = 1 - p
	}
	r := math.Sqrt(-Log(tail))
	var z float64
	if r <= 5 {
		r -= 1.6
		z = chain(r, 0.17023821103, 1.3067284816, 2.7568153900, 1.4234372777) / chain(r, 0, 0.12021132975, 0.73700164250, 1)
	} else {
		r -= 5
		z = chain(r, 0.017337203997, 0.42868294337, 3.0812263860, 6.6579051150) /
			chain(r, 0, 0.012258202635, 0.24197894225, 1)
	}
	if q < 0 {
		return -z
	}
	return z
}

// chain evaluates a polynomial in x by Horner's rule, highest power first.
func chain(x float64, a, b, c, d float64) float64 {
	y := float64(a*x) + b
	y = float64(y*x) + c
	return float64(y*x) + d
}
