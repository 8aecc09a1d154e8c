package ode

// The stages of one step, written out with their constants so that the inner
// loop neither tests for zero coefficients nor reads them from memory. The
// constants are those of tableau.go; TestStagesMatchTableau holds both together.

// stagesOf fills k[1] to k[11] from k[0] and leaves the new state in s.next. The quadratures
// have no part in the stages' arguments, since nothing depends on them.
func (s *Solver) stagesOf(h float64) {
	n, c := s.n, s.controlled
	arg := s.work[:n]
	y, z := s.y[:c], s.work[:c]
	k0 := s.k[0][:c]
	k1 := s.k[1][:c]
	k2 := s.k[2][:c]
	k3 := s.k[3][:c]
	k4 := s.k[4][:c]
	k5 := s.k[5][:c]
	k6 := s.k[6][:c]
	k7 := s.k[7][:c]
	k8 := s.k[8][:c]
	k9 := s.k[9][:c]
	k10 := s.k[10][:c]
	for i := range z {
		z[i] = y[i] + h*(0.05260015195876773*k0[i])
	}
	s.sys.Derivatives(s.t+0.05260015195876773*h, arg, s.k[1][:n])
	for i := range z {
		z[i] = y[i] + h*(0.0197250569845379*k0[i]+0.0591751709536137*k1[i])
	}
	s.sys.Derivatives(s.t+0.0789002279381516*h, arg, s.k[2][:n])
	for i := range z {
		z[i] = y[i] + h*(0.02958758547680685*k0[i]+0.08876275643042054*k2[i])
	}
	s.sys.Derivatives(s.t+0.1183503419072274*h, arg, s.k[3][:n])
	for i := range z {
		z[i] = y[i] + h*(0.2413651341592667*k0[i]-0.8845494793282861*k2[i]+0.924834003261792*k3[i])
	}
	s.sys.Derivatives(s.t+0.2816496580927726*h, arg, s.k[4][:n])
	for i := range z {
		z[i] = y[i] + h*(0.037037037037037035*k0[i]+0.17082860872947386*k3[i]+0.12546768756682242*k4[i])
	}
	s.sys.Derivatives(s.t+0.3333333333333333*h, arg, s.k[5][:n])
	for i := range z {
		z[i] = y[i] + h*(0.037109375*k0[i]+0.17025221101954405*k3[i]+0.06021653898045596*k4[i]-0.017578125*k5[i])
	}
	s.sys.Derivatives(s.t+0.25*h, arg, s.k[6][:n])
	for i := range z {
		z[i] = y[i] + h*(0.03709200011850479*k0[i]+0.17038392571223998*k3[i]+0.10726203044637328*k4[i]-0.015319437748624402*k5[i]+
			0.008273789163814023*k6[i])
	}
	s.sys.Derivatives(s.t+0.3076923076923077*h, arg, s.k[7][:n])
	for i := range z {
		z[i] = y[i] + h*(0.6241109587160757*k0[i]-3.3608926294469414*k3[i]-0.868219346841726*k4[i]+27.59209969944671*k5[i]+
			20.154067550477894*k6[i]-43.48988418106996*k7[i])
	}
	s.sys.Derivatives(s.t+0.6512820512820513*h, arg, s.k[8][:n])
	for i := range z {
		z[i] = y[i] + h*(0.47766253643826434*k0[i]-2.4881146199716677*k3[i]-0.590290826836843*k4[i]+21.230051448181193*k5[i]+
			15.279233632882423*k6[i]-33.28821096898486*k7[i]-0.020331201708508627*k8[i])
	}
	s.sys.Derivatives(s.t+0.6*h, arg, s.k[9][:n])
	for i := range z {
		z[i] = y[i] + h*(-0.9371424300859873*k0[i]+5.186372428844064*k3[i]+1.0914373489967295*k4[i]-8.149787010746927*k5[i]-
			18.52006565999696*k6[i]+22.739487099350505*k7[i]+2.4936055526796523*k8[i]-3.0467644718982196*k9[i])
	}
	s.sys.Derivatives(s.t+0.8571428571428571*h, arg, s.k[10][:n])
	for i := range z {
		z[i] = y[i] + h*(2.273310147516538*k0[i]-10.53449546673725*k3[i]-2.0008720582248625*k4[i]-17.9589318631188*k5[i]+
			27.94888452941996*k6[i]-2.8589982771350235*k7[i]-8.87285693353063*k8[i]+12.360567175794303*k9[i]+
			0.6433927460157636*k10[i])
	}
	s.sys.Derivatives(s.t+1.0*h, arg, s.k[11][:n])
	s.advance(h)
}

// advance leaves the new state in s.next.
func (s *Solver) advance(h float64) {
	n := s.n
	y, next := s.y[:n], s.next[:n]
	k0 := s.k[0][:n]
	k5 := s.k[5][:n]
	k6 := s.k[6][:n]
	k7 := s.k[7][:n]
	k8 := s.k[8][:n]
	k9 := s.k[9][:n]
	k10 := s.k[10][:n]
	k11 := s.k[11][:n]
	for i := range next {
		next[i] = y[i] + h*(0.054293734116568765*k0[i]+4.450312892752409*k5[i]+1.8915178993145003*k6[i]-5.801203960010585*k7[i]+
			0.3111643669578199*k8[i]-0.1521609496625161*k9[i]+0.20136540080403034*k10[i]+0.04471061572777259*k11[i])
	}
}

// errorNorm is the scaled error of the step, 1 at the tolerance, from the
// embedded estimates of order 5 and 3 (Hairer, Nørsett and Wanner, II.10).
func (s *Solver) errorNorm(h float64) float64 {
	n := s.controlled
	y, next, scale := s.y[:n], s.next[:n], s.scale[:n]
	k0 := s.k[0][:n]
	k5 := s.k[5][:n]
	k6 := s.k[6][:n]
	k7 := s.k[7][:n]
	k8 := s.k[8][:n]
	k9 := s.k[9][:n]
	k10 := s.k[10][:n]
	k11 := s.k[11][:n]
	var sum5, sum3 float64
	for i := range y {
		inv := 1 / (s.rtol * (scale[i] + max(abs(y[i]), abs(next[i]))))
		e5 := (0.01312004499419488*k0[i] - 1.2251564463762044*k5[i] - 0.4957589496572502*k6[i] + 1.6643771824549864*k7[i] -
			0.35032884874997366*k8[i] + 0.3341791187130175*k9[i] + 0.08192320648511571*k10[i] - 0.022355307863886294*k11[i]) * inv
		e3 := (-0.18980075407240762*k0[i] + 4.450312892752409*k5[i] + 1.8915178993145003*k6[i] - 5.801203960010585*k7[i] -
			0.4226823213237919*k8[i] - 0.1521609496625161*k9[i] + 0.20136540080403034*k10[i] + 0.02265179219836082*k11[i]) * inv
		sum5 += e5 * e5
		sum3 += e3 * e3
	}
	if sum5+0.01*sum3 == 0 { // also where the squares vanish below the smallest number
		return 0
	}
	return abs(h) * sum5 / sqrt((sum5+0.01*sum3)*float64(n))
}
