// Package numeric integrates ordinary differential equations, finds roots and
// finds least values.
//
// [Integrate] is the explicit Runge–Kutta pair of Dormand and Prince, order
// 5(4), with error control, dense output and located events. [Collocate] follows what is
// smooth by Chebyshev series, with a tenth of the evaluations. [Root] finds a
// root within a bracket and tells it from a pole and from a jump; [Roots] finds
// all that show in an interval. [Minimise] finds the least value in a box of up to
// three variables, on steps or between them.
//
// The integrator is for problems that are not stiff: it says so when it stalls
// on one that is.
package numeric

// Sources: E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary Differential
// Equations I, 2nd ed. (1993): the pair in table II.5.2, error control and the
// first step in II.4, dense output in II.6, the test for stiffness in volume
// II, IV.2. L. N. Trefethen, Spectral Methods in MATLAB (2000), 6 and 12, for the series.
// T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145,
// for the root;
// the search for the least value names its own where it goes down.
