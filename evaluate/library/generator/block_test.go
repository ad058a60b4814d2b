package generator

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func testBlocks() blocks {
	return blocks{poles: 12, remanence: 1.3, length: 30e-3, width: 15e-3, thick: 6e-3, pitch: 50e-3, coilRing: 50e-3, gap: 11e-3, height: 8e-3,
		opening: 24e-3, mid: 9e-3, taper: 4e-3, leg: 7e-3, rotor: "facing"}
}

func TestBlockFace(t *testing.T) {
	b := testBlocks()
	// On the axis it is the closed form of magnet_block.
	kit.Near(t, "on the axis", b.face(0, 0, 4e-3)-b.face(0, 0, 10e-3), blockField(30e-3, 15e-3, 6e-3, 4e-3), 1e-12)
	// Off it, Coulomb's law over the face.
	sum, n := 0.0, 300
	for i := range n {
		for j := range n {
			x, y := 30e-3*((float64(i)+0.5)/float64(n)-0.5)-9e-3, 15e-3*((float64(j)+0.5)/float64(n)-0.5)-11e-3
			sum += 4e-3 / math.Pow(x*x+y*y+16e-6, 1.5) * 30e-3 * 15e-3 / float64(n*n) / (4 * math.Pi)
		}
	}
	kit.Near(t, "off the axis", b.face(9e-3, 11e-3, 4e-3), sum, 1e-4)
}

// TestBlockFluxByGrid integrates the field on a fine grid at many angles.
func TestBlockFluxByGrid(t *testing.T) {
	b := testBlocks()
	b.height = 0
	const n, angles = 60, 16
	grow := b.leg / 2
	b.opening, b.mid, b.leg = b.opening+2*grow, b.mid+2*grow*math.Hypot(1, b.taper/b.opening/2), 0 // sharp corners
	end := b.opening / 2
	want := 0.0
	for k := range angles {
		e := 2 * math.Pi * float64(k) / angles
		flux := 0.0
		for i := range n {
			y := end * (2*(float64(i)+0.5)/n - 1)
			half := b.half(y, 0)
			for j := range n {
				x := half * (2*(float64(j)+0.5)/n - 1)
				flux += b.field(b.coilRing+y, x, 0, e/6) * (2 * end / n) * (2 * half / n)
			}
		}
		want += 2.0 / angles * flux * math.Cos(e)
	}
	kit.Near(t, "fundamental", b.harmonics()[0], want, 3e-3)
}

// TestBlocksAgainstDiscs lays square blocks in place of discs of the same
// face under the same round coil: by two quite different routes the flux is
// nearly that of the discs.
func TestBlocksAgainstDiscs(t *testing.T) {
	d := testRing()
	side := d.radius * math.Sqrt(math.Pi)
	b := blocks{poles: d.poles, remanence: d.remanence, length: side, width: side, thick: d.thick, pitch: d.pitch, coilRing: d.coilRing,
		gap: d.gap, height: d.height, opening: 8e-3, leg: 5e-3, round: true}
	for _, rotor := range []string{"facing", "backed", "single", "keeper"} {
		b.rotor, d.rotor = rotor, rotor
		kit.Near(t, rotor, b.harmonics()[0], d.harmonic(1), 0.015)
	}
}

// allBlocks is the field of every magnet of a ring, summed one by one.
func (b blocks) allBlocks(x, y, h, turn float64) (f [3]float64) {
	for i := range b.poles {
		s, c := math.Sincos(turn + 2*math.Pi*float64(i)/float64(b.poles))
		u, v, sign := x*c+y*s-b.pitch, y*c-x*s, float64(1-2*(i&1))
		along, around := b.across(u, v, h)
		f[0], f[1], f[2] = f[0]+sign*(along*c-around*s), f[1]+sign*(along*s+around*c), f[2]+sign*b.column(u, v, h)
	}
	for i := range f {
		f[i] *= b.remanence
	}
	return f
}

// TestNearestBlocks holds the field of the nearest magnets of a ring of many against that of all of
// them, at any place of a winding, by the largest that it comes to there: rings of 26 to 100
// poles, magnets half as wide as there is room for and ones that touch, gaps from a tenth of a
// magnet's width to all of it, long magnets and short ones, coils on their circle and beside it.
func TestNearestBlocks(t *testing.T) {
	worst := 0.0
	for _, poles := range []int{26, 32, 100} {
		for _, rotor := range []string{"facing", "backed", "single", "keeper"} {
			for _, fill := range []float64{0.5, 0.99} {
				for _, gap := range []float64{0.1, 1} {
					for _, length := range []float64{0.7, 3} {
						wide := 2 * math.Pi * 60e-3 / float64(poles)
						b := blocks{poles: poles, remanence: 1.3, width: fill * wide, length: length * wide, thick: 0.5 * wide, gap: gap * wide,
							height: 0.8 * gap * wide, rotor: rotor}
						b.pitch = 60e-3 + b.length/2
						for _, beside := range []float64{-1, 0, 1} {
							b.coilRing = b.pitch + beside*b.length
							worst = max(worst, nearestOff(b))
						}
					}
				}
			}
		}
	}
	t.Logf("off by %.2g of the largest", worst)
	if worst > nearestError {
		t.Errorf("the nearest magnets are off by %.2g of the largest field", worst)
	}
}

// nearestOff is by how much the nearest magnets' field is off at most.
func nearestOff(b blocks) float64 {
	off, largest := 0.0, 0.0
	step := 2 * math.Pi / float64(b.poles)
	for i := range 3 {
		x := b.coilRing + float64(i-1)*b.length/2
		for j := range 5 {
			angle := step * float64(j) / 4
			for k := range 4 {
				turn, h := step*float64(k)/3.7, b.height/2*float64(k%3-1)
				y := x * math.Tan(angle)
				near, all := b.vector(x, y, h, turn), b.allBlocks(x, y, h, turn)
				for n := range near {
					off, largest = max(off, math.Abs(near[n]-all[n])), max(largest, math.Abs(all[n]))
				}
				off = max(off, math.Abs(b.field(x, y, h, turn)-all[2]))
			}
		}
	}
	return off / largest
}

// TestNearestBlocksFlux holds the flux through a coil and what stirs its wire, both of the nearest
// magnets alone, against those of all: of a ring that is counted whole where it has few poles, so that
// its sums are those of each magnet.
func TestNearestBlocksFlux(t *testing.T) {
	for _, poles := range []int{28, 60} {
		wide := 2 * math.Pi * 60e-3 / float64(poles)
		b := blocks{poles: poles, remanence: 1.3, width: 0.8 * wide, length: 2 * wide, thick: 0.5 * wide, gap: 0.8 * wide, height: 0.5 * wide,
			opening: 1.5 * wide, mid: 0.4 * wide, leg: 0.25 * wide, rotor: "facing", pitch: 60e-3 + wide}
		b.coilRing = b.pitch
		const n = 24
		flux, end := 0.0, b.opening/2
		for i := range n {
			y := end * (2*(float64(i)+0.5)/n - 1)
			half := b.half(y, 0)
			for j := range n {
				x := half * (2*(float64(j)+0.5)/n - 1)
				flux += (b.field(b.coilRing+y, x, 0, 0) - b.allBlocks(b.coilRing+y, x, 0, 0)[2]) * (2 * end / n) * (2 * half / n)
			}
		}
		if whole := b.harmonics()[0]; math.Abs(flux) > nearestError*whole {
			t.Errorf("%d poles: the flux at the crest is off by %.2g of it", poles, flux/whole)
		}
	}
}

func BenchmarkBlocks(b *testing.B) {
	b.ReportAllocs()
	ring := testBlocks()
	for b.Loop() {
		ring.harmonics()
	}
}
