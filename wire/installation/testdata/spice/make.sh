#!/usr/bin/env bash
# Renders the netlists from the cases in ngspice_test.go, has ngspice solve each and
# writes golden.csv: netlist, name, value in V or A.
# Debian: apt-get install ngspice.
set -euo pipefail
cd "$(dirname "$0")"

(cd ../.. && go test . -run '^TestNetlists$' -netlists)

{
	echo "netlist,name,value"
	for file in *.cir; do
		ngspice -b "$file" | awk -v netlist="${file%.cir}" '
			$2 == "=" && $1 ~ /^(n_|vl_fault)/ { print netlist "," $1 "," $3; found = 1 }
			END { if (!found) { print netlist ": no answer" >"/dev/stderr"; exit 1 } }'
	done
} >golden.csv
