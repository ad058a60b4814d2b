package generator

const (
	zeroCelsius = 273.15
	roomKelvin  = zeroCelsius + 20
	mu0         = 1.25663706127e-6 // H/m, CODATA 2022
)

// ptr is the value of an optional input, or what stands for it.
func ptr(p *float64, otherwise float64) float64 {
	if p == nil {
		return otherwise
	}
	return *p
}
