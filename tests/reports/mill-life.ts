// Six sheets of one mill: two bushes whose play grows, one of them renewed on the way, a nut that keeps coming loose.

const looked = [
  { day: "2021-03-01", hours: 1000, front: "0.10", rear: "0.12" },
  { day: "2021-11-02", hours: 1180, front: "0.17", rear: "0.20" },
  { day: "2022-07-04", hours: 1420, front: "0.22", rear: "0.31" },
  { day: "2023-03-05", hours: 1600, front: "0.31", rear: "0.41" },
  { day: "2024-01-06", hours: 1805, front: "0.36", rear: "0.52" },
];

const head = (title: string, day: string, hours: number) => `sheet "${title}"
  machine "Vale mill"
  serial "VM 2"
  by "A. Vale"
  opened ${day}
  reading ${hours} h
places end front, rear
part bush "Bush of the stone spindle"
  each end
  number "B-7"
fastener cap-nut "Cap nut"
  each end
  torque 60 .. 70 N.m
  locked by nothing "a jam nut is on order"
gauge dial "Dial gauge"
  uncertainty 0.01 mm
  checked 2021-01-10 every 12 months
limit play "Play of the bush"
  each end
  of bush
  worn max 0.50 mm
  source "Maker's leaflet 3"
day ${day}
`;

const renewal = `finding bush rear
  is worn
  decision renew
step new "New bush at the rear"
  remove bush rear
  fit bush rear new
  done
measure play final by dial
  rear 0.04 mm
release by "A. Vale" 2024-01-08 at 1806 h
  test "An hour with the stones apart: no knock"
  recheck cap-nut after 50 h
`;

export const millLife: Readonly<Record<string, string>> = Object.fromEntries(
  looked.map(({ day, hours, front, rear }, i) => [
    `mill-${day}.jobsheet`,
    `${head(`Looked over, ${day}`, day, hours)}measure play found by dial
  front ${front} mm
  rear ${rear} mm
${i % 2 === 1 ? "finding cap-nut front\n  is loose\n  decision reuse\n" : ""}${i === 4 ? renewal : ""}`,
  ]),
);
