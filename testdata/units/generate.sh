#!/bin/sh
# Writes gnu-units.csv: SI values of quantities by GNU units (Debian package
# "units"), an independent program. Run it in this directory:
#
#	./generate.sh > gnu-units.csv
#
# "go test" reads the CSV only. GNU units' "year" is the tropical year; the
# design file's year is the Julian year, so it is asked for "julianyear".
set -eu

line() { # our text, dimension, GNU units' expression, SI unit
	printf '"%s",%s,%s,"units -t -d 15 %s %s"\n' "$1" "$2" \
		"$(units -t -d 15 "$3" "$4")" "'$3'" "'$4'"
}

echo "# tool: $(units --version | head -n 1)"
echo "# date: $(date -u +%Y-%m-%d)"
echo "# command: testdata/units/generate.sh; each row names its own"
echo "text,dimension,si,command"
for u in bar mbar hPa kPa MPa Pa psi atm mmHg inHg; do line "1.7 $u" pressure "1.7 $u" Pa; done
line "1.7 cmH2O" pressure "1.7 cm water" Pa
line "1.7 kgf/cm2" pressure "1.7 kgf/cm^2" Pa
line "2.5 L" volume "2.5 liter" m^3
line "2.5 mL" volume "2.5 ml" m^3
line "2.5 m3" volume "2.5 m^3" m^3
line "2.5 cm3" volume "2.5 cm^3" m^3
line "2.5 in3" volume "2.5 in^3" m^3
line "2.5 ft3" volume "2.5 ft^3" m^3
line "2.5 US gal" volume "2.5 usgallon" m^3
for u in mm cm m in ft; do line "3.3 $u" length "3.3 $u" m; done
for u in g kg oz lb; do line "3.3 $u" mass "3.3 $u" kg; done
for u in ms s min; do line "3.3 $u" time "3.3 $u" s; done
line "18 degC" temperature "tempC(18)" K
line "-5 degC" temperature "tempC(-5)" K
line "64.4 degF" temperature "tempF(64.4)" K
line "250 K" temperature "250 K" K
for u in m/s ft/s km/h mph; do
	case $u in km/h) e="km/hour" ;; *) e=$u ;; esac
	line "7.7 $u" speed "7.7 $e" m/s
done
line "80 deg" angle "80 degree" radian
line "12 L/min" flow "12 liter/min" m^3/s
line "12 L/s" flow "12 liter/s" m^3/s
line "12 m3/h" flow "12 m^3/hour" m^3/s
line "12 cfm" flow "12 cfm" m^3/s
line "4.2 L/(s bar)" conductance "4.2 liter/(s bar)" "m^3/(s Pa)"
line "0.6 cfm/psi" conductance "0.6 cfm/psi" "m^3/(s Pa)"
line "4.2e-8 m3/(s Pa)" conductance "4.2e-8 m^3/(s Pa)" "m^3/(s Pa)"
line "0.5 N" force "0.5 N" N
line "0.5 lbf" force "0.5 lbf" N
line "380 mm2" area "380 mm^2" m^2
line "380 cm2" area "380 cm^2" m^2
line "380 in2" area "380 in^2" m^2
line "0.5 J" energy "0.5 J" J
line "1600 J/m2" energy-per-area "1600 J/m^2" "J/m^2"
line "4 years" age "4 julianyear" s
line "18 months" age "18 (julianyear/12)" s
for u in A mA; do line "2.5 $u" current "2.5 $u" A; done
