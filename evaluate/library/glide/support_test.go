package glide

// ModelGlider is the airframe of the rows "Model glider set": an invented one,
// whose closed forms are those of J. D. anderson, Introduction to Flight,
// chapter 6, checked there by a numerical minimiser. CL_max is lifted out of
// the way where the rows ignore it.
func modelGlider(clMax float64) Plane {
	return Plane{Mass: 0.250, Span: 0.95, Area: 0.12, CD0: 0.035, Oswald: 0.80, CLMax: clMax, Density: 1.225}
}

func glider() Plane {
	return Plane{Mass: 0.390, Span: 1.10, Area: 0.165, CD0: 0.035, Oswald: 0.78, CLMax: 1.10, Density: 1.225}
}
