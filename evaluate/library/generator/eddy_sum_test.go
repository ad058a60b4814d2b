package generator

import (
	"context"
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// chargedDiscs is a ring of discs whose faces are sums of point charges.
type chargedDiscs struct {
	discs
	x, y, weight []float64
}

func charged(d discs) chargedDiscs {
	c := chargedDiscs{discs: d}
	const around = 32
	for i, x := range ripple.x {
		r := d.radius * (1 + x) / 2
		for j := range around {
			s, cos := math.Sincos(2 * math.Pi * (float64(j) + 0.5) / around)
			c.x, c.y = append(c.x, r*cos), append(c.y, r*s)
			c.weight = append(c.weight, d.radius/2*ripple.w[i]*r*2*math.Pi/around/(4*math.Pi))
		}
	}
	return c
}

func (c *chargedDiscs) face(u, v, z float64) (f [3]float64) {
	for i, w := range c.weight {
		dx, dy := u-c.x[i], v-c.y[i]
		r2 := dx*dx + dy*dy + z*z
		w /= r2 * math.Sqrt(r2)
		f[0], f[1], f[2] = f[0]+w*dx, f[1]+w*dy, f[2]+w*z
	}
	return f
}

func (c *chargedDiscs) field(x, y, h, turn float64) (f [3]float64) {
	add := func(sign, flip, u, v, z float64) {
		for face, t := range [2]float64{0, c.thick} {
			b := c.face(u, v, z+t)
			s := sign * float64(1-2*face) * c.remanence
			f[0], f[1], f[2] = f[0]+s*flip*b[0], f[1]+s*flip*b[1], f[2]+s*b[2]
		}
	}
	for i := range c.poles {
		s, cos := math.Sincos(turn + 2*math.Pi*float64(i)/float64(c.poles))
		sign := float64(1 - 2*(i%2))
		add(sign, 1, x-c.pitch*cos, y-c.pitch*s, c.gap/2+h)
		if c.rotor == "facing" {
			add(sign, -1, x-c.pitch*cos, y-c.pitch*s, c.gap/2-h)
		}
	}
	return f
}

// TestEddyByCharges holds what the field stirs up against charged discs summed
// point by point, over the winding, in all harmonics.
func TestEddyByCharges(t *testing.T) {
	for _, rotor := range []string{"facing", "single"} {
		d := discs{poles: 12, remanence: 1.28, radius: 10e-3, thick: 5e-3, pitch: 45e-3, coilRing: 45e-3, gap: 10e-3, inner: 5e-3, outer: 14e-3, height: 8e-3, rotor: rotor}
		c := charged(d)
		const angles, round = 32, 6
		var axial, across, along, whole float64
		for i, x := range midRule.x {
			r := d.inner + (d.outer-d.inner)*(1+x)/2
			for k := range round {
				s, cos := math.Sincos(math.Pi * (float64(k) + 0.5) / round)
				for j, z := range fourRule.x {
					weight := midRule.w[i] * r * fourRule.w[j]
					var f [angles][3]float64
					for n := range f {
						f[n] = c.field(d.coilRing+r*cos, r*s, z*d.height/2, 2*math.Pi*float64(n)/angles/float64(d.poles/2))
					}
					var a, o, l float64
					for n := range f { // the derivative by the spectrum of a full period
						g := derivative(f[:], n)
						out, al := g[0]*cos+g[1]*s, g[1]*cos-g[0]*s
						a, o, l = a+g[2]*g[2]/angles, o+out*out/angles, l+al*al/angles
					}
					axial, across, along, whole = axial+weight*a, across+weight*o, along+weight*l, whole+weight
				}
			}
		}
		t.Logf("%s: axial %.4g, across %.4g, along %.4g; transverse by axial %.3f; worked %.4g", rotor, axial/whole, across/whole, along/whole, (across+along)/axial, d.swept(context.Background()))
		// Worked apart from this code, by superposed discs: across the wire 1.17 and 1.73 times what is axial.
		kit.Near(t, "across the wire", (axial+across)/axial, map[string]float64{"facing": 1.17, "single": 1.73}[rotor], 0.06)
		kit.Near(t, rotor, d.swept(context.Background()), (axial+across+along/2)/whole, 0.1)
	}
}

// derivative by the angle of a full period, by the Fourier matrix.
func derivative(f [][3]float64, at int) (g [3]float64) {
	n := len(f)
	for j := range f {
		if j == at {
			continue
		}
		a := math.Pi * float64(at-j) / float64(n)
		w := 0.5 * math.Cos(a) / math.Sin(a)
		if (at-j)%2 != 0 {
			w = -w
		}
		for k := range g {
			g[k] += w * f[j][k]
		}
	}
	return g
}
