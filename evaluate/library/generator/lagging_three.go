package generator

import "math"

// Of three phases a sixth of a turn is the whole, with the phases renamed. Phase
// a is lone and feeds the upper rail; θ is counted from its crest. Two diodes
// carry one current from a to b, later to c; three carry the lone phase's and
// the difference of the other two, b less c, which do not meet:
//
//	two    2q·i' + (2 + rd)·i = √3·cos(θ − π/6) − x
//	lone    q·i' + (1 + 2rd/3)·i = cos θ − 2x/3
//	apart   q·d' + d = √3·sin θ
//
// A third diode begins where its phase passes the rail, which lies a third of x
// and of the drop in rd from the star's middle, and the one that gives up its current
// ends where lone and apart are alike.
const sixth = math.Pi / 3

func (l lag) two(x float64) branch {
	return branch{r: 2 + l.rd, q: 2 * l.q, m: math.Sqrt(3), delta: math.Pi / 6, g: x}
}

func (l lag) lone(x float64) branch {
	return branch{r: 1 + 2*l.rd/3, q: l.q, m: 1, g: 2 * x / 3}
}

func (l lag) apart() branch { return branch{r: 1, q: l.q, m: math.Sqrt(3), delta: math.Pi / 2} }

// A sixthTurn is a sixth of a turn of the emf in pieces, those missing of no
// length: while two diodes conduct, while three do, and while two do again.
type sixthTurn struct {
	early, late piece
	lone, apart piece
	kind        lagKind
}

// lagKind is the order in which diodes conduct.
type lagKind uint8

const (
	paused   lagKind = iota // two, then none
	handed                  // two, three, two, then none
	shared                  // two and three in turn
	threeAll                // three at all times
)

// A track is where three diodes last became two, and with what current they had
// begun: where to look next. The zero track is a look from nowhere.
type track struct{ i, at float64 }

// three is a sixth of a turn of a bridge of three phases into x < √3.
func (l lag) three(x float64, near *track) sixthTurn {
	// A current that lags by atan q at most ends at −π/6 and that at the latest.
	if x <= 3*l.q/math.Hypot(1, l.q) {
		if t, ok := l.always(x); ok {
			return t
		}
	}
	// Below 1.5 the next two phases pass x before the last two fall below it.
	if x > 1.5 {
		if t, ok := l.fromRest(x); ok {
			return t
		}
	}
	return l.inTurn(x, near)
}

// takeover is where the third diode begins, with a current i in the other two.
func (l lag) takeover(x, i float64) float64 {
	return sixth - math.Acos(min(1, (x+l.rd*i)/3))
}

// carry is three diodes from where they begin, until one gives up its own current or, at
// the latest, a sixth is over; that is looked for from a guess to within an angle.
func (t *sixthTurn) carry(guess, within float64) {
	lo := t.lone.at0
	hi := lo + sixth
	at := max(lo, min(guess, hi))
	for range 60 {
		s, c := math.Sincos(at)
		t.lone.end, t.apart.end = t.lone.there(at, s, c), t.apart.there(at, -c, s)
		over, grows := t.apart.end.y-t.lone.end.y, t.apart.end.slope-t.lone.end.slope
		if over > 0 {
			hi = at
		} else {
			lo = at
		}
		next := min(hi, at-over/grows)
		if !(next >= lo) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-at) <= within {
			return
		}
		at = next
	}
}

// parting is where one of three diodes gives up its current when nothing is left
// to die away.
func (l lag) parting(x float64) float64 {
	lone := l.lone(x)
	a, b, _ := lone.swing()
	ca, sa, _ := l.apart().swing()
	m, n := a-ca, b-sa // m·cos + n·sin = level
	level := 2 * x / 3 / lone.r
	return math.Atan2(n, m) + math.Acos(min(1, level/math.Hypot(m, n)))
}

// fromRest is a sixth that begins without a current, where the voltage between
// two phases passes x; false if the current does not come to rest again.
func (l lag) fromRest(x float64) (sixthTurn, bool) {
	var t sixthTurn
	start := math.Pi/6 - math.Acos(x/math.Sqrt(3))
	b := l.two(x).begin(start, 0)
	t.early = piece{b, b.zero(sixth-start, start+math.Pi)}
	if t.early.end.at <= l.takeover(x, 0)+sixth {
		return t, true
	}
	t.kind = handed
	t.early.end = l.meet(x, &b, t.early.end.at)
	from, i := t.early.end.at-sixth, t.early.end.y
	t.lone.branch, t.apart.branch = l.lone(x).begin(from, i), l.apart().begin(from, -i)
	t.carry(l.parting(x), settled)
	t.late.branch = l.two(x).begin(t.lone.end.at, t.lone.end.y)
	if t.lone.end.at >= start || t.late.at(start).y > 0 {
		return t, false
	}
	t.late.end = t.late.zero(t.lone.end.at, start)
	return t, true
}

// meet is where the next diode begins while two conduct, before an angle at
// which their current would end.
func (l lag) meet(x float64, b *branch, end float64) instant {
	lo := l.takeover(x, 0) + sixth
	m := b.at(lo)
	for range 60 {
		sin, cos := math.Sincos(m.at - 2*sixth)
		over, grows := 3*cos-x-l.rd*m.y, -3*sin-l.rd*m.slope
		if over > 0 {
			end = m.at
		} else {
			lo = m.at
		}
		next := m.at - over/grows
		if !(next >= lo && next <= end) {
			next = (lo + end) / 2
		}
		step := next - m.at
		m = b.at(next)
		if math.Abs(step) <= 1e-13 {
			break
		}
	}
	return m
}

// inTurn is two and three diodes in turn: the current at the takeover is the one
// that returns a sixth later, found by Newton's steps.
func (l lag) inTurn(x float64, near *track) sixthTurn {
	t := sixthTurn{kind: shared}
	most := max((math.Sqrt(3)-x)/(2+l.rd), (3-2*x)/(3+2*l.rd)) // at the crests, without a reactance
	i, at := near.i, near.at
	if i == 0 {
		two := l.two(x).begin(0, 0)
		i, at = max(1e-3, two.at(l.takeover(x, 0)+sixth).y), l.parting(x)
	}
	i = min(i, most)
	known := 1e-10 * min(1, 10*i)
	last := 1e-2 // the angle no closer than the current is known
	lone, apart, two := l.lone(x).swung(), l.apart().swung(), l.two(x).swung()
	for range 60 {
		u := min(1, (x+l.rd*i)/3)
		from, h := sixth-math.Acos(u), math.Sqrt((1-u)*(1+u))
		s, c := sixthSin*u-sixthCos*h, sixthCos*u+sixthSin*h // of from, and so on by turns of the sixth's half
		t.lone.branch, t.apart.branch = lone.from(from, i, s, c), apart.from(from, -i, -c, s)
		t.carry(at, max(settled, 1e-3*last))
		here := &t.lone.end
		t.late.branch = two.from(here.at, here.y, sixthSin*here.sin-sixthCos*here.cos, sixthSin*here.cos+sixthCos*here.sin)
		t.late.end = t.late.there(from+sixth, sixthSin*s+sixthCos*c, sixthSin*c-sixthCos*s)
		back, end := l.returns(&t, x, i)
		step := (t.late.end.y - i) / (1 - back)
		if math.Abs(step) <= known {
			break
		}
		last = math.Abs(step)
		at = t.lone.end.at + end*step
		i = max(i/2, min(i+step, (i+most)/2))
	}
	near.i, near.at = i, at
	return t
}

// returns is how the current a sixth later grows with that at the takeover, and
// how the end of three diodes does.
func (l lag) returns(t *sixthTurn, x, i float64) (back, end float64) {
	u := (x + l.rd*i) / 3
	later := l.rd / 3 / math.Sqrt((1-u)*(1+u))
	lone := t.lone.end.left * (1 - t.lone.slope0()*later)
	apart := t.apart.end.left * (-1 - t.apart.slope0()*later)
	end = (lone - apart) / (t.apart.end.slope - t.lone.end.slope)
	lone += t.lone.end.slope * end
	return t.late.end.left*(lone-t.late.slope0()*end) + t.late.end.slope*later, end
}

// always is three diodes at all times. One begins as another ends, at β, so that over
// a sixth lone returns to its i, and apart goes from −i to i. Either gives i as
// cosine and sine of β, and both together an equation of one sine.
func (l lag) always(x float64) (sixthTurn, bool) {
	lone, apart := l.lone(x), l.apart()
	level := 2 * x / 3 / lone.r
	// i = s(β) + k with s(β + π/3) + k·f = s(β) + k, and of apart (1 + f)·i = s(β + π/3) − f·s(β).
	a, b, f := lone.swing()
	ca, sa, fa := apart.swing()
	iCos, iSin := a+(sixthCos*a+sixthSin*b-a)/(1-f), b+(sixthCos*b-sixthSin*a-b)/(1-f)
	dCos, dSin := (sixthCos*ca+sixthSin*sa-fa*ca)/(1+fa), (sixthCos*sa-sixthSin*ca-fa*sa)/(1+fa)
	m, n := iCos-dCos, iSin-dSin
	h := math.Hypot(m, n)
	if level > h {
		return sixthTurn{}, false
	}
	beta := math.Atan2(n, m) + math.Acos(level/h)
	sin, cos := math.Sincos(beta)
	i := iCos*cos + iSin*sin - level
	if !(i > 0) || beta < l.takeover(x, i) {
		return sixthTurn{}, false
	}
	t := sixthTurn{kind: threeAll}
	t.lone.branch, t.apart.branch = l.lone(x).begin(beta, i), l.apart().begin(beta, -i)
	t.lone.end, t.apart.end = t.lone.at(beta+sixth), t.apart.at(beta+sixth)
	return t, true
}

const sixthCos, sixthSin = 0.5, 0.8660254037844386

// swing is the steady swing by cosine and sine of the angle, and what is left
// after a sixth of what dies away.
func (b branch) swing() (cos, sin, left float64) {
	z := b.m / (b.r*b.r + b.q*b.q)
	s, c := math.Sincos(b.delta)
	return z * (b.r*c - b.q*s), z * (b.r*s + b.q*c), math.Exp(-b.r / b.q * sixth)
}

// laggingThree is threeFlow with a reactance q in each phase.
func laggingThree(e, r, rd, q, x float64, near *track) flow {
	if x >= math.Sqrt(3)*e || q <= leastLag*r {
		return threeFlow(e, r, rd, x)
	}
	t := lag{q: q / r, rd: rd / r}.three(max(0, x/e), near)
	var f flow
	for _, p := range [3]struct {
		*piece
		share float64 // of its work, which the emfs give to the lone phase alone
	}{{&t.early, 1}, {&t.lone, 1.5}, {&t.late, 1}} {
		if p.r == 0 {
			continue
		}
		charge, work := p.sums()
		f.mean += charge
		f.power += p.share * work
		f.square += p.square(p.end, charge, work)
	}
	if t.apart.r > 0 {
		_, work := t.apart.sums()
		f.power += work / 2
	}
	i := e / r / sixth
	return flow{mean: i * f.mean, power: i * e * f.power, square: i * e / r * f.square}
}
