package numeric

// Bisect is the place where above turns from false to true between low and high.
func Bisect(low, high float64, above func(float64) bool) float64 {
	for range 100 {
		mid := (low + high) / 2
		if mid == low || mid == high {
			break
		}
		if above(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return (low + high) / 2
}
