cd /tmp/w5/x13
nice -n 19 npx tsx exp-extract.mts takes 0 0 /tmp/x13/takes.jsonl
nice -n 19 npx tsx exp-extract.mts real 0 0 /tmp/x13/real.jsonl
nice -n 19 npx tsx exp-extract.mts cases 10000 10400 /tmp/x13/cases.jsonl
