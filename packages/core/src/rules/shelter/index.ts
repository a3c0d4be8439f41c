export { shelter, type ShelterMeasure } from './shelter.js';
