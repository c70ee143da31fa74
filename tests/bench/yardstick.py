"""The same job in DuckDB, as a floor: yardstick.py BATCHDIR OUTDIR claims|tables

Joins counts with vehicles, takes the largest size present and the count band, looks the amount up, adds factors, refers
panels beyond 140 dents or with broken paint, totals each claim, and writes CSV. No located problems, no working, no
digests: what the program is timed against, in the same run on the same machine. It reads what `generate` writes.
claims: one row per claim. tables: claims, panels and lines, three files.
"""
import os, sys
import duckdb

batch, out, what = sys.argv[1:4]
os.makedirs(out, exist_ok=True)
db = duckdb.connect()
db.execute("set threads = 2; set preserve_insertion_order = true")
sizes = ["0-11 mm", "11-21 mm", "21-33 mm", "33-48 mm"]
tops = [5, 12, 21, 34, 55, 90, 145, 240]
dents = " + ".join(f'coalesce("{size}", 0)' for size in sizes)
size = "".join(f""" when "{size}" > 0 then '{size}'""" for size in reversed(sizes[1:]))
band = "".join(f" when dents <= {top} then {index}" for index, top in enumerate(tops))
db.execute(f"""
create view rates as select panel, size, band, amount::decimal(12,2) amount from read_csv('{batch}/terms/rates.csv');
create view vehicles as select * from read_csv('{batch}/vehicles.csv');
create {'table' if what == 'tables' else 'view'} rated as
with counted as (
  select claim, panel, material, access, paint, {dents} dents, case{size} else '{sizes[0]}' end size
  from read_csv('{batch}/counts.csv')),
banded as (select *, case{band} else {len(tops)} end band from counted where dents > 0),
based as (select c.*, r.amount base from banded c join rates r using (panel, size, band)),
first as (select *, case material when 'aluminium' then round(base * 0.22, 2) else 0 end::decimal(12,2) material_add
          from based),
second as (select *, case access when 'behind brace' then round((base + material_add) * 0.14, 2)
                                 when 'glue only' then round((base + material_add) * 0.31, 2)
                                 else 0 end::decimal(12,2) access_add
           from first)
select *, (base + material_add + access_add)::decimal(12,2) amount, dents > 140 or paint = 'broken' referred from second;
copy (select r.claim, any_value(v.insurer) insurer, sum(dents) dents,
             coalesce(sum(amount) filter (not referred), 0) net, count(*) filter (referred) referred,
             greatest(coalesce(sum(amount) filter (not referred), 0) - any_value(v.excess), 0) payable,
             coalesce(sum(amount) filter (not referred), 0) >= 0.75 * any_value(v."market value") total_loss
      from rated r join vehicles v using (claim) group by r.claim order by r.claim) to '{out}/claims.csv';
""")
if what == "tables":
    db.execute(f"""
copy (select claim, panel, dents, size, band, base, amount, referred from rated) to '{out}/panels.csv';
copy (select claim, panel, u.l.text, u.l.amount from
        (select claim, panel, unnest([{{'text': 'base', 'amount': base}}, {{'text': 'material', 'amount': material_add}},
                                      {{'text': 'access', 'amount': access_add}}]) l from rated) u
      where u.l.amount <> 0) to '{out}/lines.csv';
""")
