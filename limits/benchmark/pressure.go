package benchmark

// The benchmarks of pressure, relief valves and the body.
const (
	EUPressureLaw      BenchmarkID = "pressure.eu-law"
	SoundPracticeSmall BenchmarkID = "pressure.sound-practice.volume"
	SoundPracticePV    BenchmarkID = "pressure.sound-practice.pv"
	SoundPracticePS    BenchmarkID = "pressure.sound-practice.pressure"
	SimpleVesselPV     BenchmarkID = "pressure.simple-vessel.pv"
	ASMEScopePressure  BenchmarkID = "pressure.asme-scope.pressure"
	ASMEScopeDiameter  BenchmarkID = "pressure.asme-scope.diameter"
	SkinAir            BenchmarkID = "pressure.skin"
	PlasticPipeGas     BenchmarkID = "pressure.plastic-pipe"
	HighStoredEnergy   BenchmarkID = "stored.high"
	HighStoredPressure BenchmarkID = "stored.high.pressure"
	LaboratoryEnergy   BenchmarkID = "stored.laboratory"

	ReliefFullFlowShare  BenchmarkID = "relief.full-flow.share"
	ReliefFullFlowASME   BenchmarkID = "relief.full-flow.asme"
	ReliefFullFlowISO    BenchmarkID = "relief.full-flow.iso"
	ReliefSetShare       BenchmarkID = "relief.set.share"
	ReliefSetISO         BenchmarkID = "relief.set.iso"
	ReliefSetASME        BenchmarkID = "relief.set.asme"
	ReliefReseatLeast    BenchmarkID = "relief.reseat.least"
	ReliefReseatMost     BenchmarkID = "relief.reseat.most"
	ReliefReseatAbsolute BenchmarkID = "relief.reseat.absolute"
	VentTarget           BenchmarkID = "vent.target"

	LungVolume   BenchmarkID = "body.lung-volume"
	LungPressure BenchmarkID = "body.lung-pressure"
	SmallBall    BenchmarkID = "choking.small-ball"
	SmallPart    BenchmarkID = "choking.small-part"
	SmallPartAge BenchmarkID = "choking.age"
	SmallPieces  BenchmarkID = "choking.pieces"
)

func pressureBenchmarks() []Benchmark {
	const (
		pressureLaw  = "Directive 2014/68/EU"
		simpleVessel = "Directive 2014/29/EU"
		asme         = "ASME BPVC VIII-1"
		practice     = "Art. 4(1)(a)(i), 4(3), Annex II table 2"
	)
	return []Benchmark{
		{ID: EUPressureLaw, What: "EU pressure law starts above this pressure", Value: 0.5e5, Unit: "Pa", Document: pressureLaw,
			Clause: "Art. 1(1)", Evidence: ReadSecondary},
		{ID: SoundPracticeSmall, What: "sound engineering practice suffices up to this volume, air", Value: 1e-3, Unit: "m3",
			Document: pressureLaw, Clause: practice, Evidence: FromMemory, Caveat: "or up to 50 bar L; pressure at most 1000 bar"},
		{ID: SoundPracticePV, What: "sound engineering practice suffices up to this pressure times volume, air",
			Value: 50e5 * 1e-3, Unit: "Pa m3", Document: pressureLaw, Clause: practice, Evidence: FromMemory,
			Caveat: "50 bar L, gauge pressure; or a volume up to 1 L"},
		{ID: SoundPracticePS, What: "highest pressure of that rule", Value: 1000e5, Unit: "Pa", Document: pressureLaw, Clause: practice,
			Evidence: FromMemory, Use: Information},
		{ID: SimpleVesselPV, What: "simple vessels bear the CE mark above this pressure times volume", Value: 50e5 * 1e-3, Unit: "Pa m3",
			Document: simpleVessel, Clause: "Annex III", Evidence: ReadPrimary, Caveat: "50 bar L, gauge pressure"},
		{ID: ASMEScopePressure, What: "outside the scope of the ASME vessel code up to this pressure", Value: 15 * psi,
			Unit: "Pa", Document: asme, Clause: "U-1(c)(2)(h)", Evidence: ReadSecondary, Use: Information,
			Caveat: "15 psi; out of scope does not mean harmless"},
		{ID: ASMEScopeDiameter, What: "outside the scope of the ASME vessel code up to this inside diameter", Value: 6 * 0.0254, Unit: "m",
			Document: asme, Clause: "U-1(c)(2)(i)", Evidence: ReadSecondary, Use: Information, Caveat: "6 in; out of scope does not mean harmless"},
		{ID: SkinAir, What: "compressed air for cleaning stays below this pressure, never at a person",
			Value: 30 * psi, Unit: "Pa", Document: "29 CFR 1910.242(b); 30 CFR 77.412(c)", Evidence: ReadPrimary,
			Caveat: "30 psi; compressed air is never turned on a person at any pressure"},
		{ID: PlasticPipeGas, What: "PVC pipe above ground for compressed gas, not encased: highest pressure", Value: 0,
			Unit: "Pa", Document: "OSHA Hazard Information Bulletin", Edition: "1990-12-13", Evidence: ReadPrimary,
			Caveat: "not to be used; ASME B31.3 A323.4.2 and B31.9 923.3.2 say the same (read in a secondary text)"},
		{ID: HighStoredEnergy, What: "high stored energy: hazardous above", Value: 19310, Unit: "J", Document: "ECSS-E-ST-32-02C",
			Evidence: ReadPrimary, Caveat: "14240 ft lbf; a spaceflight standard, used as a mark, or 0.69 MPa whichever comes first"},
		{ID: HighStoredPressure, What: "high pressure: hazardous above", Value: 0.69e6, Unit: "Pa", Document: "ECSS-E-ST-32-02C",
			Evidence: ReadPrimary},
		{ID: LaboratoryEnergy, What: "hazardous stored energy in a laboratory", Value: 100e3, Unit: "J",
			Document: "UC Berkeley EHS, pressure safety", Evidence: ReadPrimary, Use: Information},
	}
}

// psi is one pound-force per square inch [Pa]: 0.45359237 kg x 9.80665 m/s2 over
// (0.0254 m)^2, exact by definition.
const psi = 0.45359237 * 9.80665 / (0.0254 * 0.0254)

func reliefBenchmarks() []Benchmark {
	const (
		iso  = "ISO 4126-1"
		asme = "ASME BPVC VIII-1"
	)
	return []Benchmark{
		{ID: ReliefFullFlowShare, What: "full flow by this share above the set pressure", Value: 0.10, Unit: "-", Document: asme,
			Clause: "UG-125(c)", Evidence: ReadSecondary, Caveat: "or 3 psi, whichever is greater; ISO 4126-1 has the same share"},
		{ID: ReliefFullFlowASME, What: "or by this much above the set pressure", Value: 3 * psi, Unit: "Pa", Document: asme, Clause: "UG-125(c)",
			Evidence: ReadSecondary, Caveat: "3 psi; whichever is greater"},
		{ID: ReliefFullFlowISO, What: "or by this much above the set pressure", Value: 0.1e5, Unit: "Pa", Document: iso,
			Evidence: ReadSecondary},
		{ID: ReliefSetShare, What: "tolerance of the set pressure, share", Value: 0.03, Unit: "-", Document: iso, Evidence: ReadSecondary,
			Caveat: "or 0.1 bar"},
		{ID: ReliefSetISO, What: "tolerance of the set pressure", Value: 0.1e5, Unit: "Pa", Document: iso, Evidence: ReadSecondary,
			Caveat: "or 3 %"},
		{ID: ReliefSetASME, What: "tolerance of the set pressure below 70 psi", Value: 2 * psi, Unit: "Pa", Document: asme, Clause: "UG-134",
			Evidence: ReadSecondary, Caveat: "2 psi"},
		{ID: ReliefReseatLeast, What: "reseats at least this share below the set pressure", Value: 0.02, Unit: "-", Document: iso,
			Evidence: ReadSecondary},
		{ID: ReliefReseatMost, What: "reseats at most this share below the set pressure", Value: 0.15, Unit: "-", Document: iso,
			Evidence: ReadSecondary},
		{ID: ReliefReseatAbsolute, What: "reseats at most this much below the set pressure, small gas valves", Value: 0.3e5, Unit: "Pa",
			Document: iso, Evidence: ReadSecondary},
		{
			ID: VentTarget, What: "pressure that counts as vented", Value: 0.05e5, Unit: "Pa",
			Caveat: "own rule: no published figure for a harmless residual pressure was found; with the dump path still open and the gauge at zero",
		},
	}
}

func bodyBenchmarks() []Benchmark {
	return []Benchmark{
		{ID: LungVolume, What: "volume that a charge mixes into behind sealed lips", Value: 1e-3, Unit: "m3",
			Caveat: "own rule: one litre of lung"},
		{ID: LungPressure, What: "lung injury is reported from about this pressure", Value: 0.1e5, Unit: "Pa",
			Document: "MSD Manual, pulmonary barotrauma", Evidence: ReadSecondary, Caveat: "no figure for children was found"},
		{ID: SmallBall, What: "a ball that passes a ring of this diameter is a small ball", Value: 44.45e-3, Unit: "m", Document: "16 CFR 1117",
			Evidence: ReadSecondary, Caveat: "not where children under three are"},
		{ID: SmallPart, What: "a part that fits a cylinder of this diameter is a small part", Value: 31.7e-3, Unit: "m",
			Document: "16 CFR 1501.4", Evidence: ReadSecondary, Caveat: "not where children under three are"},
		{ID: SmallPartAge, What: "age below which small balls and small parts must be kept away", Value: 3 * 365.25 * 86400, Unit: "s",
			Document: "16 CFR 1117 and 1501", Evidence: ReadSecondary, Caveat: "a warning for older children all the same"},
		{ID: SmallPieces, What: "what comes off in use and abuse is held to that cylinder too, for children below this age",
			Value: 3 * 365.25 * 86400, Unit: "s", Document: "16 CFR 1501.4(b)(2)", Evidence: FromMemory,
			Caveat: "by the tests of 16 CFR 1500.51 and 1500.52; the bite is the own rule of this project"},
	}
}

// FinestDial is the error of the finest dial gauges over their range (class 0.1 of EN 837-1, from memory): a smaller one, or none, is no
// error that anybody measured, and counts as not stated.
const FinestDial = 1e-3
