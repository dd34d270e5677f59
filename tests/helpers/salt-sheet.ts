/** An invented sheet of two additions. */
export const saltSheet = `sheet: Invented salt
code: INV
revision: 1
makes: {piece: jar, count: 2, fill: 50 g, loss: 0 %}
tolerance: 1 %
materials:
  salt: {name: Salt, inci: Sodium Chloride, lot: none}
  clay: {name: Clay, inci: Kaolin, lot: none}
phases:
  - phase: Mix
    share: 100 %
    vessel: {name: bowl, tare: 300 g, holds: 1 kg}
    steps:
      - add: salt
        amount: 80 %
      - add: clay
        amount: 20 %
`;
