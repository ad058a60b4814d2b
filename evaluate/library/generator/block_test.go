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

func BenchmarkBlocks(b *testing.B) {
	b.ReportAllocs()
	ring := testBlocks()
	for b.Loop() {
		ring.harmonics()
	}
}
