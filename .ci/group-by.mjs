// `Object.groupBy` where Node has none (before 21): Chevrotain's check of the grammar asks for it. The built program checks no grammar at its start.
Object.groupBy ??= (items, keyOf) => {
  const groups = Object.create(null);
  for (const it of items) {
    const key = keyOf(it);
    groups[key] ??= [];
    groups[key].push(it);
  }
  return groups;
};
